# Written from the sources by `cargo run --example words`; not to be edited.

## src/rule.rs

usual-weight-protects-against-may-afbfe0a5 = Usual weight: { $severity }. Protects against { $protects }. May be explained: { $explained }
of-what-must-be-explained-53a04a71 = Of what must be explained, a deviation of these categories counts: { $by }.
limit-7bb48c6a = { $name } { $value }, limit { $limit }: { $verdict }
running-rules-3fe483eb = running rules
not-in-the-release-held-20dfc0ff = { $message } Not in the release: held by { $id }.
not-in-the-release-rejected-99f9a0a4 = { $message } Not in the release: rejected by { $id }.
explained-by-bc58a9f8 = { $message } Explained by { $id }.

## src/rules/r01.rs

record-files-f10511f3 = record files
every-file-can-be-read-734cf70f = Every file can be read; no key is unknown, doubled or of the wrong type.
a-misspelt-field-that-silently-b7542a15 = a misspelt field that silently vanishes
never-it-is-mended-or-36c72888 = Never: it is mended, or what it concerns is not released.

## src/rules/r02.rs

what-it-needs-is-not-c0e6c4c1 = { $element }: what it needs is not known: it has no test that names a specification, or that product_specification cannot be read.
add-the-specification-that-its-e96c80fd = Add the specification that its records name, or mend what keeps it from being read.
neither-a-build-nor-a-97b41065 = { $element }: neither a build nor a test of it is recorded.
add-its-records-or-take-2a57e506 = Add its records, or take it out of the release.
its-last-test-was-made-6a4bc8d3 = { $element }: its last test was made before adapter and tip were on.
its-last-test-does-not-71ba55fb = { $element }: its last test does not say that adapter and tip were on: test_stage is { $stage }.
test-it-again-complete-8ac48cc5 = Test it again, complete.
write-test-stage-where-they-feeb9f5c = Write test_stage: { $stage } where they were; otherwise test it again, complete.
no-pleating-record-names-it-35f4f757 = { $element }: no pleating_record names it, so that its roll is not known.
add-the-pleating-record-without-ba332d97 = Add the pleating_record; without it nobody can be told when the roll turns out bad.
no-names-it-f0de5127 = { $element }: no { $kind } names it.
add-the-or-find-out-47ddffd4 = Add the { $kind }, or find out why the step was not done.
the-specification-limits-its-and-54ed2970 = { $roll }: the specification limits its { $quantity }, and no membrane_test measured it.
add-the-measurement-or-test-c9a11b92 = Add the measurement, or test the roll.
no-membrane-test-names-it-09b6264e = { $roll }: no membrane_test names it.
add-the-test-of-the-bb3d0e67 = Add the test of the flat membrane, or find out why it was not made.
is-in-scope-and-no-92998847 = { $lot } is in scope, and no record knows this lot.
correct-the-name-or-add-abdff1f7 = Correct the name, or add its records.
names-revision-which-is-not-9eed0294 = { $id } names { $spec } revision { $revision }, which is not here: no limit is known for it.
name-the-specification-that-it-47319666 = Name the specification that it was tested to, or add it.
no-lot-reconciliation-accounts-for-b29f2bb4 = { $lot }: no lot_reconciliation accounts for it.
count-every-module-that-was-74a9c246 = Count every module that was begun, and record where each is.
releases-and-no-marking-inspection-220351ba = { $id } releases { $assemblies }, and no marking_inspection read them.
read-the-mark-on-each-b6a4cede = Read the mark on each element, and record it.
every-record-that-the-specification-9d9f7924 = Every record that the specification requires for each module and assembly is present.
a-step-that-was-left-05b2dfae = a step that was left out, or done and not recorded

## src/rules/r03.rs

is-missing-without-not-measured-45c4ce6c = { $id }: { $quantity } is missing without not_measured_reason.
add-the-measurement-or-say-3f818a4f = Add the measurement or say why it was not made.
the-diffusive-flow-has-no-c2ffd3de = { $id }: the diffusive flow has no { $name }.
add-it-from-the-instrument-0ded09d9 = Add it from the instrument's export; without it no figure is shown.
is-measured-twice-in-one-058c35b8 = { $id }: { $quantity } is measured twice in one test.
record-the-second-as-a-fe988007 = Record the second as a test of its own.
is-said-not-to-be-2e0a5420 = { $id }: { $quantity } is said not to be measured and has a result.
a-result-stays-take-not-1abf4620 = A result stays: take not_measured_reason out, and decide a deviation if the result does not count.
is-not-evaluated-dabde565 = { $id }: { $quantity } is not evaluated: { $why }.
mend-the-record-or-measure-b8b567e7 = Mend the record, or measure it again; what cannot be computed is no pass.
it-was-not-measured-1af3ad02 = it was not measured: { $reason }
is-not-evaluated-in-the-55748389 = { $element }: { $quantity } is not evaluated in { $id }, the test that decides: { $why }.
measure-it-or-take-the-bf7323b6 = Measure it, or take the element out of the release; a reason is no result.
every-required-field-is-filled-b0a03b8e = Every required field is filled, or its absence is reasoned.
a-blank-that-reads-like-cf3eaa4f = a blank that reads like a pass

## src/rules/r04.rs

the-limit-is-no-limit-12ccf014 = the limit "{ $limit }" is no limit of { $quantity }.
write-it-with-a-unit-92ee6e11 = Write it with a unit of that quantity.
of-stage-is-limited-more-dd61fb48 = { $quantity } of stage { $stage } is limited more than once.
write-one-limit-with-both-3bc241b0 = Write one limit, with both ends if need be.
the-limit-of-lies-below-68d70545 = the limit "{ $limit }" of { $quantity } lies below zero, where nothing of it can be.
look-for-a-sign-that-898cb3f8 = Look for a sign that slipped in.
the-limit-of-points-the-fdba70c3 = the limit "{ $limit }" of { $quantity } points the wrong way: it lets every bad value pass.
a-flow-of-gas-has-aa398766 = A flow of gas has an upper limit; bubble points, forces, flows of water and the like a lower one.
has-no-unit-that-fits-a297c693 = { $name } "{ $demand }" has no unit that fits.
the-control-limits-and-of-1144b0fd = the control limits { $lower } and { $upper } of { $quantity } are no two values of it in this order.
write-the-lower-and-the-307cc95c = Write the lower and the upper limit in units of the quantity.
the-guard-band-is-not-eb34da2c = the guard band "{ $what }" is not of the form "1.0 U", from 0 up.
a-guard-band-below-zero-f55f5ffe = A guard band below zero would pass what fails.
the-guard-band-guards-nothing-e47a4bd2 = the guard band "{ $what }" guards nothing, and the rule is { $name }.
state-a-band-above-zero-f8cb30bb = State a band above zero; or say simple_acceptance, where it was agreed that the risk is shared.
has-no-degree-of-freedom-86efff1e = has no degree of freedom: leave them out where the uncertainty is taken as known
is-below-zero-e195c446 = is below zero
states-not-exactly-one-of-4b319bc1 = states not exactly one of relative and absolute
the-contribution-8eb69759 = the contribution { $source } { $why }.
a-standard-uncertainty-is-a-960940ac = A standard uncertainty is a positive number, relative or absolute.
the-contribution-of-has-no-e349bb82 = the contribution { $source } "{ $absolute }" of { $quantity } has no unit that fits what it acts on, so that it would be left out.
the-comparison-tolerance-of-compares-cfb8cdf5 = the comparison tolerance "{ $what }" of { $quantity } compares nothing: it is more than a quarter.
write-by-how-much-two-a912c6a1 = Write by how much two computations of one trace may differ.
the-comparison-tolerance-of-cannot-48bbe15e = the comparison tolerance "{ $what }" of { $quantity } cannot be read.
write-or-mbar-with-a-6acc3b7b = Write "2 %" or "20 mbar", with a blank.
look-for-a-slip-of-5e58b061 = Look for a slip of a factor of ten; where it is meant, say why in a deviation.
the-limit-of-is-far-cf4ee4db = the limit "{ $limit }" of { $quantity } is far from its limits of control, { $lower } to { $upper }.
the-limit-of-is-far-8015041c = the limit "{ $limit }" of { $quantity } is far from that of an assembly, { $other }.
the-limit-of-limits-nothing-b6e2e301 = the limit "{ $limit }" of { $quantity } limits nothing: what was measured is { $least } to { $most }.
look-for-a-slip-of-f29a1b58 = Look for a slip of the unit or of the point, here and in the limits of other stages.
has-no-unit-that-fits-ff8091bd = { $name } "{ $value }" has no unit that fits { $nominal }.
is-below-zero-18e1bc50 = { $name } "{ $value }" is below zero.
copy-it-again-from-the-4ec7830f = Copy it again from the certificate.
coverage-factor-is-below-one-f7a1a02f = coverage_factor { $k } is below one.
copy-it-again-from-the-aa43f4da = Copy it again from the certificate; 2 is usual.
of-membrane-are-pleated-and-9d8d94d2 = { $area } of membrane are pleated, and the specification says { $stated } a module
of-membrane-are-pleated-and-eff2e16f = { $area } of membrane are pleated, and { $from } to { $to } of the roll, { $length } wide, are { $taken }
are-pleated-and-no-coil-adf33abc = { $length } are pleated, and no coil of { $roll } is as wide
look-at-pleat-height-length-023ec42e = Look at pleat height, length and count, at the metres of the roll, and at their units.
every-quantity-has-a-unit-48597f41 = Every quantity has a unit that fits its field and a believable size.
a-slip-of-a-factor-5fad8ffe = a slip of a factor of ten, or gauge taken for absolute

## src/rules/r05.rs

traces-50c08ae7 = traces
is-not-in-the-folder-122bbd1e = { $file } is not in the folder.
fetch-the-original-that-names-3d881727 = Fetch the original that { $id } names from the instrument; release waits.
has-digest-but-says-74abb56e = { $file } has digest { $digest }… but { $id } says { $stated }.
fetch-the-original-from-the-aa6d03b0 = Fetch the original from the instrument; do not edit the record to fit.
every-trace-is-present-and-f5cefe49 = Every trace is present and has the digest that the record states.
a-trace-that-was-edited-e1391775 = a trace that was edited, swapped or lost

## src/rules/r06.rs

a-trace-has-columns-with-3151d319 = A trace has columns with units, decimal points and rising time.
a-decimal-comma-or-a-6fd3a60d = a decimal comma or a shuffled row

## src/rules/r07.rs

min-without-data-after-line-a4efe763 = { $file }: { $length } min without data after line { $from }.
proven-hold-time-leaves-the-20e03e7f = Proven hold time leaves the gap out; life used counts it in full. Look for a second recorder, or accept the cycle as unproven.
repeat-the-test-or-fetch-1e1ed933 = Repeat the test, or fetch the whole trace from the instrument.
the-evaluated-part-of-a-96269ce2 = The evaluated part of a trace has no gap longer than 1.5 sampling steps.
a-hole-that-a-straight-73420e6b = a hole that a straight line would hide
in-a-cycle-log-where-cc03dbd1 = In a cycle log, where the gap then proves nothing and counts against life; never in a test.

## src/rules/r08.rs

is-not-read-its-name-3ea2e9dd = { $name } is not read: its name does not end in .yaml.
rename-it-if-its-records-d062f8d5 = Rename it if its records count; systems hide endings that they know. Take it out if it is an old one.
belongs-to-no-record-40c52559 = { $name } belongs to no record.
if-it-is-a-test-46dd7bbc = If it is a test, record it; if it is a trial, say so in a deviation. It is in the dossier either way.
no-file-in-the-folder-d2e2bf63 = No file in the folder is left unreferenced.
an-unwanted-result-that-lies-d393eeb9 = an unwanted result that lies beside the record
by-a-decided-deviation-that-7fd402e0 = By a decided deviation that names the thing.

## src/rules/r09.rs

attachments-1a545e81 = attachments
is-a-page-that-a-ebb12aaa = { $id }: { $file } is a page that a browser would run, with whatever is in it.
hand-over-a-pdf-a-ef95a40e = Hand over a PDF, a picture or plain text.
ask-whoever-issued-it-for-6e3a4aa2 = Ask whoever issued it for a copy; do not edit the record to fit.
is-not-in-the-folder-559ca617 = { $id }: { $file } is not in the folder.
has-no-sha256-beside-it-b8b51e05 = { $id }: { $file } has no sha256 beside it, so that nobody sees when it changes; it is { $digest } now.
make-sure-that-it-is-052b5fd1 = Make sure that it is the right file, and write its sha256 in the record.
every-attachment-named-is-there-369ae4fe = Every attachment named is there with its digest.
a-certificate-that-nobody-can-7dbd28f9 = a certificate that nobody can show, or that was swapped
by-a-decided-deviation-for-20692184 = By a decided deviation, for attachments that are neither certificate nor evidence of a claim.

## src/rules/r10.rs

revision-exists-twice-here-and-ceef06f6 = { $id } revision { $revision } exists twice, here and in { $first }.
if-one-is-a-copy-2ffdf44c = If one is a copy of the other, take it out; if both are meant, make one the next revision with a reason.
give-one-of-them-another-9c34559e = Give one of them another id: whoever names it cannot say which kind is meant.
the-record-id-has-a-437cdaa9 = the record_id "{ $id }" has a blank at its beginning or end.
take-it-out-whoever-names-008e95b1 = Take it out: whoever names the record does not see it.
stands-twice-in-one-list-a236290b = { $id }: { $name } stands twice in one list.
only-one-of-them-would-b63bfe2d = Only one of them would count, and nobody would see which: keep the right one, under a name of its own each.
no-two-records-carry-the-26f2fd1b = No two records carry the same id and revision, and no list of a record names the same thing twice.
two-truths-under-one-name-16623f7a = two truths under one name

## src/rules/r11.rs

ids-80cfc569 = ids
the-ids-and-look-alike-0cff115f = the { $what } ids { $other } and { $id } look alike.
check-the-mark-on-the-5ecc04c8 = Check the mark on the thing, or the paper; correct the id that is wrong.
the-id-has-the-form-0dd1c0c8 = the { $what } id { $id } has the form { $shape }, all others { $usual }.
check-the-mark-on-the-8e1b5611 = Check the mark on the thing.
ids-follow-the-pattern-of-251ded4e = Ids follow the pattern of their kind; ids that look alike are pointed out.
two-things-that-a-reader-13cb7e48 = two things that a reader takes for one
by-a-decided-deviation-of-f393a38e = By a decided deviation of category marking or data that names the id.

## src/rules/r12.rs

is-in-fc478c37 = { $id } is in { $assemblies }.
and-in-613b8f55 = {" "}and in{" "}
one-build-record-is-wrong-bf16ed72 = One build record is wrong. Read the marks on both elements; both are blocked until then.
has-build-records-1e4c47eb = { $id } has { $count } build records: { $ids }.
an-assembly-is-built-once-5a75e024 = An assembly is built once; what was corrected is a revision of one record.
was-pleated-twice-in-and-85883e7f = { $id } was pleated twice, in { $first } and in { $second }.
one-of-both-is-another-868243b9 = One of both is another module: read the marks.
stands-twice-d700637e = { $module_id } stands twice
position-stands-twice-0437f520 = position { $position } stands twice
in-its-build-3fabd810 = { $assembly_id }: { $what } in its build.
read-the-marks-on-the-b6be13af = Read the marks on the element and correct the record.
no-module-is-in-two-15d377ed = No module is in two assemblies or was pleated twice, and no assembly was built twice.
a-module-that-was-mistaken-5750c4a6 = a module that was mistaken for another

## src/rules/r13.rs

the-specification-s-module-nominal-2fff107d = { $assembly_id }: the specification's module_nominal_length is { $module_nominal_length }.
correct-the-specification-2901db2f = Correct the specification.
its-modules-stand-at-the-987c4b66 = { $assembly_id }: its modules stand at the positions { $list }.
number-them-from-on-without-498140f1 = Number them from 1 on without a gap, as they stand; a missing number may be a missing module.
is-called-and-was-measured-2766ce61 = { $assembly_id } is called { $nominal_length }, and { $own } was measured.
measure-again-and-correct-what-0ed219d7 = Measure again and correct what is wrong.
long-and-its-modules-end-48e19aff = { $assembly_id }: { $whole } long, and its modules end to end { $parts }: joining takes length away.
is-which-is-none-of-654e6c71 = { $assembly_id } is { $nominal_length }, which is none of the assembly_lengths of its specification.
correct-the-length-or-lay-f4b4b01b = Correct the length, or lay it down in the next revision of the specification.
is-modules-due-listed-d7545d47 = { $assembly_id } is { $nominal_length }: modules due: { $due }, listed: { $count }.
add-the-missing-module-or-3374a3a5 = Add the missing module or correct the length.
the-number-of-modules-and-6c6d1cb6 = The number of modules and the measured length fit the nominal length, which is one that is offered.
a-short-element-or-a-746fdc38 = a short element, or a module that nobody recorded

## src/rules/r14.rs

modules-built-in-cbc62d4d = modules built in
is-in-and-has-no-3378e797 = { $id } is in { $assembly_id } and has no test.
add-its-test-a-module-bcba8773 = Add its test; a module is never joined untested.
its-last-test-is-dated-2d2cbcdd = { $id }: its last test is dated after the build ({ $time } against { $time2 }).
check-the-clock-of-the-76a58c21 = Check the clock of the rig and the time of the build.
is-in-and-the-test-8d5fdd0a = { $id } is in { $assembly_id } and the test that decides about it is no pass: { $bad }.
quarantine-the-assembly-a-module-8c9fcb29 = Quarantine the assembly; a module that did not pass is never joined.
each-module-used-has-an-e63e3b43 = Each module used has an accepted last test before the build.
a-module-that-was-built-65b5af51 = a module that was built in before it passed

## src/rules/r15.rs

modules-built-in-and-assemblies-40b0ebd9 = modules built in and assemblies to be released
appears-in-b1ca9a72 = { $id } ({ $why }) appears in { $assembly_id }.
quarantine-now-afce4b0f = Quarantine { $assembly_id } now.
is-in-the-release-and-5a3339c9 = { $assembly } is in the release, and { $id } leaves it out.
one-of-the-two-is-d17a5224 = One of the two is wrong; take it out of the release until it is known.
is-in-the-release-and-46f1d5fa = { $assembly } is in the release and { $id } says { $word }.
take-it-out-of-the-b6fb8d2e = Take it out of the release; what was decided is decided anew in the next revision of that deviation, and another does not lift it.
no-rejected-or-held-module-84051228 = No rejected or held module is in an assembly.
a-reject-that-found-its-29e09588 = a reject that found its way back

## src/rules/r16.rs

packs-samples-and-balances-of-2d8795a7 = packs, samples and balances of rolls
to-and-to-overlap-b04b217b = { $roll }: { $from } to { $to } ({ $module_id }) and { $from2 } to { $to2 } ({ $id }) overlap.
check-the-pleating-record-against-44a7d51d = Check the pleating record against the cut list.
to-cannot-be-cut-from-80f806ad = { $roll }: { $from } to { $to } ({ $id }) cannot be cut from it.
check-the-metres-a-roll-2ed3b9fe = Check the metres; a roll has no more than was received.
its-sample-was-taken-at-34bed6a4 = { $id }: its sample was taken at { $at } of { $roll }, which has { $whole }.
its-sample-was-taken-at-532a6cc7 = { $id }: its sample was taken at { $at } of { $roll }, where { $module } was cut ({ $from } to { $to }).
find-out-which-roll-and-902dd93f = Find out which roll and which place it is of.
less-used-and-tested-or-6f9b218d = { $received } less { $used_in_this_lot } used and { $test_and_trim } tested or trimmed leaves { $rest }, not { $remaining }
its-packs-add-up-to-4d3b9fe5 = its packs add up to { $cut }, not { $used_in_this_lot }
behind-the-last-cut-at-70e5bb26 = behind the last cut at { $last } lie { $last2 }, not { $remaining }
in-84491085 = { $roll } in { $id }: { $wrong }.
find-the-metres-a-pack-616526fa = Find the metres: a pack that was never recorded is cut from somewhere.
the-metres-of-a-roll-217badab = The metres of a roll do not overlap, do not exceed the roll, and balance.
a-module-that-was-cut-8297ae95 = a module that was cut from membrane that is not there

## src/rules/r17.rs

material-lots-used-b7877e39 = material lots used
has-no-material-lot-record-655316a8 = { $lot } ({ $what }) has no material_lot record.
add-it-with-supplier-and-906e80c5 = Add it with supplier and supplier lot (one step up).
names-no-lot-of-its-7acc6ca6 = { $id } names no lot of its { $what }, and { $elements } is to be released.
name-the-lot-without-it-c991e215 = Name the lot; without it nobody can be told when it turns out bad.
cut-from-coil-of-and-d622201b = { $modules }: cut from coil { $coil } of { $roll }, and no slitting_record is of that coil: its width was held against nothing.
cut-from-coil-of-and-cb28f03e = { $modules }: cut from coil { $coil } of { $roll }, and that coil was slit from { $other }.
correct-the-coil-or-add-762d5dc4 = Correct the coil, or add the record of its slitting.
end-caps-83ff3dcf = end caps
each-material-lot-that-was-2a698ec6 = Each material lot that was used traces to one supplier and supplier lot.
a-part-that-nobody-can-d660731b = a part that nobody can recall (one step up, EC 1935/2004 Article 17)

## src/rules/r18.rs

released-assemblies-b000074a = released assemblies
is-here-and-in-dossier-380c1620 = { $record }: { $id } is "{ $name }" here and "{ $own }" in dossier.yaml.
write-the-customer-s-name-44aadc42 = Write the customer's name in one way in both.
is-released-in-and-in-dc5d6aab = { $id } is released in { $id2 } and in { $id3 }.
is-released-to-no-consignee-ce8a0e8b = { $id } is released to no consignee with a dispatch note.
is-released-for-and-consigned-affd2acf = { $id } is released for { $customer } and consigned to { $to }.
each-element-goes-to-one-35b4ed37 = Each element goes to one customer, with one dispatch note, in one release statement: correct what differs.
each-released-assembly-traces-to-45365e1c = Each released assembly traces to one consignee and one dispatch note.
an-element-that-nobody-can-a1c5cb8a = an element that nobody can call back (one step down)

## src/rules/r19.rs

lots-reconciled-bdc74d33 = lots reconciled
has-two-dispositions-bd8e4e4b = { $lot_id }: { $id } has two dispositions.
find-out-where-it-is-52bbb9d6 = Find out where it is; a module is in one place.
started-accounted-4346845b = { $lot_id }: started { $modules_started }, accounted { $count }.
find-the-difference-before-release-b13087a4 = Find the difference before release.
was-pleated-and-has-no-b95f97d2 = { $lot_id }: { $id } was pleated and has no disposition.
find-it-before-release-944c94e3 = Find it before release.
assemblies-are-said-to-be-aaad53b1 = { $lot_id }: { $stated } assemblies are said to be built, and { $count } are listed.
its-balance-does-not-add-c9b8ea57 = { $lot_id }: its balance "{ $text }" does not add up to the { $count } modules that are listed.
is-and-no-deviation-says-ae1456b7 = { $lot_id }: { $id } is { $state }, and no deviation says why.
name-the-deviation-what-went-91d456a7 = Name the deviation: what went wrong with one module concerns every buyer of the lot.
no-assembly-539b3f26 = no assembly
is-said-to-be-in-b81bfe90 = { $lot_id }: { $id } is said to be in { $said } and was built into { $built }.
one-record-is-wrong-read-73cb3e21 = One record is wrong: read the mark.
was-tested-and-no-pack-698795c9 = { $id } was tested ({ $test }), and no pack, assembly or reconciliation says what became of it.
record-where-it-came-from-67da7d70 = Record where it came from and where it is; a trial is said in a deviation of category exclusion.
a-lot-balances-started-equals-8cc09175 = A lot balances: started equals in assemblies, rejected, destroyed, held and in stock.
a-module-that-has-vanished-b8ce2421 = a module that has vanished

## src/rules/r20.rs

assemblies-of-reconciled-lots-3b6b4086 = assemblies of reconciled lots
is-left-out-of-the-1d8c1344 = { $id } is left out of the release without a deviation.
is-left-out-of-the-f8cc9043 = { $id } is left out of the release without a reason.
state-reason-code-and-deviation-03d9292e = State reason code and deviation in the exclusions; the customer sees them.
every-exclusion-from-a-lot-51a69323 = Every exclusion from a lot has a reason code and a deviation.
a-thing-that-was-left-61927493 = a thing that was left out in silence

## src/rules/r21.rs

uses-of-material-lots-4fa4f545 = uses of material lots
uses-as-and-is-of-6cc75fc3 = { $id } uses { $lot } as { $what }, and { $lot } is of material_type { $kind }, not { $due }.
find-out-what-was-fitted-0c2e592c = Find out what was fitted, and name its lot.
expired-used-in-4e1619cc = { $lot } ({ $what }) expired { $date }, used { $used } in { $id }.
is-and-was-used-in-99f9d3dc = { $lot } ({ $what }) is { $status } and was used in { $id }.
stop-what-contains-it-replace-69ec61fb = Stop what contains it; replace and retest, or bring the supplier's extension.
materials-were-accepted-and-inside-3fcbf437 = Materials were accepted, and inside their shelf life when used.
a-rejected-or-stale-part-6e875122 = a rejected or stale part in a good element
the-supplier-s-extension-of-109f0718 = The supplier's extension of the shelf life by a decided deviation of category data that names the lot; what was not accepted never.

## src/rules/r22.rs

is-was-tested-as-bcd7fd6d = { $assembly_id } is { $product_code }; { $module_id } was tested as { $product_code2 } ({ $nominal_rating }).
take-the-element-apart-do-0881824c = Take the element apart; do not relabel it.
one-rating-and-product-code-5ee0eed0 = One rating and product code stand in one assembly.
a-module-of-another-rating-110dd37a = a module of another rating in the middle of an element

## src/rules/r23.rs

pairs-of-steps-2b980e60 = pairs of steps
on-but-is-dated-98d33bd0 = { $id }: { $after } { $id2 } on { $second }, but { $before } { $id3 } is dated { $first }.
find-out-which-time-is-8250431a = Find out which time is wrong, or open a deviation.
pleating-badeb35f = pleating
receipt-eae6b243 = receipt
test-of-joined-modules-99d8f8f6 = test of joined modules
build-c39bf2a3 = build
is-issued-on-and-of-5769be7b = { $id } is issued on { $issued }, and { $test } of what it releases was made on { $day }.
fitted-released-b153fe5d = { $assembly_id }: fitted { $time } ({ $id }), released { $signed } ({ $id2 }).
say-in-a-deviation-who-d72fd971 = Say in a deviation who allowed it to be used before it was released, and for what.
things-happened-in-order-received-3cc3b16b = Things happened in order: received, membrane tested, pleated, sealed, module tested, built, assembly tested, released.
a-record-that-was-written-c7616ab2 = a record that was written to fit

## src/rules/r24.rs

every-time-has-its-offset-4b831d88 = Every time has its offset.
two-times-that-cannot-be-f0fa7810 = two times that cannot be put in order

## src/rules/r25.rs

min-until-14b667e2 = { $instrument_run_id } ({ $element }, { $span } min, until { $time })
and-overlap-d9e320cf = { $instrument }: { $before } and { $after } overlap.
one-time-is-wrong-or-cc0f6167 = One time is wrong, or one trace is not from { $instrument }: compare with the rig's own list.
one-instrument-does-not-run-bffd2192 = One instrument does not run two tests at once.
a-trace-that-is-not-874e407d = a trace that is not from this element, or not from this rig

## src/rules/r26.rs

events-12d8e384 = events
was-recorded-days-after-51c12581 = { $id } was recorded { $days } days after { $event } ({ $happened }).
add-a-late-entry-note-5d6fe9cd = Add a late-entry note with the source of the facts.
detection-8608432c = detection
records-are-made-within-one-7f19173e = Records are made within one working day of the event.
facts-that-were-written-down-7a426660 = facts that were written down from memory
by-a-late-entry-note-ebf313a9 = By a late-entry note: a decided deviation of category data that names the record and the source of its facts.

## src/rules/r27.rs

instruments-that-stamp-time-fc956186 = instruments that stamp time
stamps-times-and-no-calibration-1503f125 = { $rig } stamps times, and no calibration record checks its clock.
compare-its-clock-with-a-6c1b562d = Compare its clock with a reference and record clock_check.
clock-s-off-at-its-422e6f5c = { $rig }: clock { $off } s off at its check of { $day }, not corrected.
two-tests-may-be-in-2e6e5d2b = Two tests may be in the wrong order; run numbers keep theirs. Correct the clock and record the check.
is-dated-before-whose-number-42b2fb2a = { $rig }: { $instrument_run_id } is dated { $second }, before { $instrument_run_id2 } ({ $first }), whose number is lower. Run numbers keep the order; times of { $rig } are doubtful between its two clock checks.
find-out-when-its-clock-3be7ff19 = Find out when its clock was moved. Nothing is sorted anew or corrected here.
the-clock-of-an-instrument-652d8b95 = The clock of an instrument is within 60 s of a reference, or was corrected.
tests-in-the-wrong-order-1b1fbec7 = tests in the wrong order
by-a-decided-deviation-of-a2f8e13e = By a decided deviation of category calibration that names the instrument.

## src/rules/r28.rs

lies-after-the-date-of-dca75ed3 = { $id }: { $date } lies after { $today }, the date of this dossier.
check-the-year-on-the-1ef85739 = Check the year on the instrument, or compiled_on in dossier.yaml.
nothing-lies-in-the-future-1c8982b0 = Nothing lies in the future of the date on the pages.
a-wrong-year-or-a-dd5049bf = a wrong year, or a record written ahead

## src/rules/r29.rs

the-run-of-has-no-dc85aa7f = { $id }: the run { $instrument_run_id } of { $instrument_id } has no number; a gap could not be seen.
write-the-rig-s-own-3008ffd5 = Write the rig's own running number.
is-the-run-of-and-49759cd8 = { $instrument_id }: { $instrument_run_id } is the run of { $id } and of { $id2 }.
fetch-both-exports-from-the-28a10ab4 = Fetch both exports from the rig.
is-followed-by-not-here-46102bee = { $rig }: { $instrument_run_id } is followed by { $instrument_run_id2 }; { $n } not here.
run-is-855ba6d7 = 1 run is
runs-are-4b2dce45 = { $n } runs are
export-them-or-give-the-74440338 = Export them, or give the reason: trial, leak check, other product.
the-run-numbers-of-a-89d9b34a = The run numbers of a rig are continuous; every break is accounted for.
an-unwanted-result-that-was-6e9c490a = an unwanted result that was never exported

## src/rules/r30.rs

uses-of-instruments-11e7c84c = uses of instruments
is-valid-from-before-the-da746720 = { $id } is valid from { $from }, before the calibration was made on { $made }.
a-certificate-vouches-for-nothing-806b7345 = A certificate vouches for nothing before its calibration; correct the day.
names-no-instrument-807fa330 = { $id } names no instrument.
name-what-measured-it-a-246716b5 = Name what measured it; a number without an instrument cannot be vouched for.
names-no-instrument-for-its-5df98d44 = { $id } names no instrument for its { $quantity }.
was-used-on-for-and-aefb0f16 = { $instrument } was used on { $day } for { $id }, and no calibration_record covers that day.
ran-out-on-f1b170ea = {" "}{ $id } ran out on { $until }.
add-the-certificate-or-repeat-6a6885b0 = Add the certificate or repeat the tests; what rests on them alone is held or rejected by a deviation, and not released.
each-instrument-is-in-calibration-cc38343e = Each instrument is in calibration on the day of use.
a-number-from-an-instrument-96543513 = a number from an instrument that nobody can vouch for

## src/rules/r31.rs

instruments-and-quantities-863cc875 = instruments and quantities
measured-for-and-no-calibration-8e07a94b = { $instrument } measured { $kind } for { $id }, and no calibration of it has a point of that kind.
add-points-that-cover-the-7d3c0066 = Add points that cover the values, or explain.
used-from-to-calibrated-from-f001679c = { $instrument }: used from { $low } to { $high }, calibrated from { $least } to { $most }.
a-volume-of-is-stated-b27de350 = { $instrument }: a volume of { $volume } is stated in tests ({ $n }, the first of them { $id }); the nearest that was calibrated is { $nominal }, and { $allowed } off is allowed.
a-flow-is-in-proportion-ac2553d3 = A flow is in proportion to its volume: state the one that was calibrated with such an element in it, or add its calibration.
a-pressure-12a19eb7 = a pressure
a-length-9a08cb28 = a length
a-force-b331b737 = a force
a-flow-0cec73dc = a flow
a-volume-c2a1a276 = a volume
a-temperature-701e7a2e = a temperature
a-quantity-d8303399 = a quantity
the-points-of-a-calibration-cc041f78 = The points of a calibration cover the values that were used.
a-gauge-that-was-never-7b2a326f = a gauge that was never looked at where it was read

## src/rules/r32.rs

calibrations-9f38e33c = calibrations
becomes-was-ef131cf5 = { $id } becomes { $figure }, { $verdict } (was { $before }, { $before2 })
no-judged-figure-of-this-b8f0649c = no judged figure of this folder used it
figures-of-elements-are-judged-a7511ccf = { $n } figures of { $count } elements are judged again with that error, and every verdict stands
figures-of-elements-are-judged-1b5e6f44 = { $n } figures of { $count } elements are judged again with that error: { $changed }; the others stand
tell-e5d1217f = {" "}Tell { $told }.
was-found-off-at-on-d9db24c7 = { $instrument_id } was found { $as_found_error } off at { $nominal } on { $time } (limit { $maximum_permissible_error }); { $list }.
open-a-deviation-of-category-c030733d = Open a deviation of category calibration; when the drift began is not known, so all results count as affected.{ $tell } Before and after stand on the page of instruments.
judged-in-dffcb3c2 = {" "}Judged in { $id }.
was-left-off-at-limit-93a48e81 = was left { $as_left_error } off at { $nominal } (limit { $maximum_permissible_error })
is-stated-to-be-outside-3e5198bc = is stated to be outside its limits as found, and no point shows it
adjust-and-calibrate-it-again-596fdc0d = Adjust and calibrate it again, or ask the laboratory.
when-an-instrument-is-found-e878340b = When an instrument is found out of tolerance, every result since its last good calibration is judged again.
results-that-rest-on-a-e3793391 = results that rest on a drifted instrument

## src/rules/r33.rs

judged-figures-1a30f0b9 = judged figures
at-the-certificate-states-u-0f4749f4 = { $id }: at { $nominal } the certificate states U = { $own }, and an error of { $allowed } is allowed.
a-calibration-that-is-less-423a8b48 = A calibration that is less sure than what it judges shows nothing: have it calibrated better, or state why that is good enough.
u-is-of-the-limit-1c1d0566 = { $id }: { $computed }, U is { $share } % of the limit { $limit }, more than { $most } %.
state-why-that-is-good-dcdc23b1 = State why that is good enough, or measure better.
an-uncertainty-is-small-enough-d8dca7e5 = An uncertainty is small enough for its limit.
a-verdict-that-hangs-on-0ac7d618 = a verdict that hangs on the instrument
by-a-decided-deviation-of-ee0c2eb8 = By a decided deviation of category calibration that names the record, or the quantity as the specification writes it.

## src/rules/r34.rs

names-no-accreditation-and-no-6b074121 = { $id } names no accreditation and no reference standard.
ask-the-laboratory-metrological-traceability-2b96c81b = Ask the laboratory; metrological traceability is otherwise a claim.
a-certificate-names-an-accredited-869e03aa = A certificate names an accredited laboratory or a chain of traceability.
a-claim-of-traceability-that-2a020f1c = a claim of traceability that rests on nothing

## src/rules/r35.rs

there-is-no-personnel-authorisation-f19e93ad = there is no personnel_authorisation: nobody's right to write or to sign these records is shown.
add-the-record-that-says-e298069b = Add the record that says who may do what, from when until when.
of-is-by-whose-right-4cd6f346 = { $id } of { $day } is by { $author }, whose right to write it was recorded on { $since }.
say-in-a-deviation-who-344c8841 = Say in a deviation who had authorised them on that day, and what shows it; a right that is written afterwards is none by itself.
who-is-in-no-personnel-a4b8da5c = who is in no personnel_authorisation
whose-authorisation-runs-from-to-e81a9190 = whose authorisation runs from { $date } to { $date2 }
who-is-authorised-for-only-2ef7330c = who is authorised for { $collect } only
of-is-by-f404556d = { $id } of { $day } is by { $author }, { $why }.
check-who-did-the-work-74529bf8 = Check who did the work; repeat it if it was done without authorisation.
the-author-was-authorised-for-7792c045 = The author was authorised for that record on that day.
work-by-someone-who-was-9aa0b69e = work by someone who was not trained for it
a-right-that-was-recorded-174cc08a = A right that was recorded afterwards by a decided deviation of category data that names the record; otherwise never: it is mended, or what it concerns is not released.

## src/rules/r36.rs

release-statements-f0d3ce60 = release statements
both-reviews-and-releases-3039769a = { $id }: { $person_id } both reviews and releases.
name-another-reviewer-60083006 = Name another reviewer.
signs-as-on-without-being-68ee529d = { $person_id } signs as { $act } on { $time } without being authorised for it
nobody-signs-as-9cd8c522 = nobody signs as { $act }
signs-as-and-also-recorded-e0395ebd = { $id }: { $person_id } signs as { $meaning } and also recorded { $id2 }.
name-another-person-nobody-judges-602e27d7 = Name another person; nobody judges own work.
reviewer-and-releaser-made-none-d549b19e = Reviewer and releaser made none of the records that they judge, and are two persons.
someone-who-judges-their-own-3b96685e = someone who judges their own work

## src/rules/r37.rs

signed-signed-b31aa53b = { $id }: { $after } signed { $time }, { $before } signed { $time2 }.
review-again-then-release-as-d6ccee62 = Review again, then release as the next revision.
signed-before-of-f3edcf81 = { $id }: { $person_id } signed { $time }, before { $on } of { $when }.
sign-what-exists-sign-again-e513e6b6 = Sign what exists; sign again.
issued-and-signed-for-release-1ee28a56 = { $id }: issued { $issued }, and signed for release { $time }.
a-statement-is-issued-when-73a415f5 = A statement is issued when it is signed: correct the date, as the next revision.
signatures-are-in-order-authorship-871b8c01 = Signatures are in order: authorship, review, release.
a-release-that-was-signed-5329255d = a release that was signed before it was reviewed

## src/rules/r38.rs

prepares-9f30c9ec = prepares { $id }
reviews-710b7fd1 = reviews { $id }
releases-2fa8240e = releases { $id }
signs-as-eeb3fe50 = signs { $id } as { $other }
approved-1960ba6d = approved { $id }
allowed-unless-the-signature-policy-5ec27bfc = Allowed unless the signature policy says otherwise; shown to the auditor.
one-person-who-acts-in-c5e7df80 = One person who acts in two roles of one chain is shown.
a-chain-whose-links-are-a33884a7 = a chain whose links are one person
it-needs-no-explanation-a-84a40d54 = It needs no explanation; a person looks at it.

## src/rules/r39.rs

judge-it-to-the-revision-2d1b77a6 = Judge it to the revision in force, or say in a deviation why not.
revision-was-recorded-and-says-e96cfcf7 = { $id } revision { $revision } was recorded { $time } and says that it was in force before: it judges none of the { $count } tests that were made before it was written.
correct-effective-from-or-say-b5df5b54 = Correct effective_from, or say in a deviation of category data where the limits stood on that day.
revision-was-recorded-after-of-909ba424 = { $id } revision { $revision } was recorded { $time }, after { $count } of the tests that it judges, the first of them { $test }.
a-limit-is-laid-down-0f942388 = A limit is laid down before what it judges; say in a deviation of category data where it stood on that day.
tests-name-revisions-of-the-52892899 = { $lot }: tests name revisions { $list } of the specification; each is judged here to the one that it names. { $lot2 }.
confirm-which-revision-the-order-65c233fe = Confirm which revision the order names.
names-revision-and-no-revision-36377491 = { $id } names { $id2 } revision { $revision }, and no revision of it in this folder was in force on { $day }.
names-revision-revision-was-in-2021b156 = { $id } names { $id2 } revision { $revision }; revision { $revision2 } was in force on { $day }.
no-release-statement-names-a-6569bfba = No release statement names a revision for it
the-release-names-revision-which-47e8a8fd = The release names { $document } revision { $revision }, which is not in this folder
against-to-revision-7505b49b = { $element } { $computed } against { $limit }: { $other } (to revision { $revision }: { $verdict })
the-release-names-revision-to-2efc0836 = The release names { $document } revision { $revision }; to it every verdict is the same
the-release-names-revision-to-bde5a132 = The release names { $document } revision { $revision }; to it these differ: { $differ }
each-test-names-the-revision-803893f8 = Each test names the revision of the specification that was in force that day.
a-limit-of-another-day-89e12f19 = a limit of another day
mixed-revisions-in-a-lot-f45dfee8 = Mixed revisions in a lot, by a decided deviation; a revision that was not in force, never.

## src/rules/r40.rs

reported-values-b7e57664 = reported values
reported-recomputed-ddd671c6 = { $id }: reported { $reported }, { $said }; recomputed { $figure }, { $limit }: { $verdict }.
the-recomputed-verdict-stands-an-08cbd617 = The recomputed verdict stands; an instrument knows no uncertainty. Hold the item.
hold-the-item-who-or-ea4159ec = Hold the item. Who or what said fail may have seen what no figure shows: find out why, and say it in a deviation.
no-tolerance-being-stated-229b7c93 = 5 %, no tolerance being stated
reported-recomputed-they-differ-by-96043d3e = { $id }: reported { $reported }, recomputed { $figure }; they differ by more than { $what }.
find-out-how-the-reported-800a8eff = Find out how the reported value was got; both are shown.
reported-fail-not-evaluated-here-292f2ec1 = { $id }: reported { $reported }, fail; not evaluated here: { $why }.
the-reported-failure-stands-until-35cc4dad = The reported failure stands until the test is repeated.
reported-and-recomputed-agree-within-18cfa063 = Reported and recomputed agree within the stated tolerance.
a-figure-that-was-copied-ed235857 = a figure that was copied wrongly, or an instrument that knows no uncertainty

## src/rules/r41.rs

wetted-with-method-asks-a544b618 = wetted with { $wetting_liquid }, method asks { $liquid }
test-pressure-limit-set-for-672a1fb7 = test pressure { $pressure }, limit set for { $due }
is-not-stated-limit-set-0155791f = { $field } is not stated, limit set for { $due }
its-water-was-at-of-5f8dba4c = { $id }: its water was at { $own }, of { $ratio } times the viscosity at 20 °C: no correction reaches so far.
look-at-the-temperature-measure-3353ab94 = Look at the temperature; measure nearer to 20 °C.
the-test-is-invalid-pass-c763218d = { $id }: { $message }. The test is invalid, pass or fail.
state-the-flow-at-the-4aae9098 = State the flow at the pressure difference of the limit.
the-water-was-at-where-8a45392b = { $id }: the water was at { $own }, where it flows { $ratio } times as easily as at the { $reference } of the specification. The test is invalid, pass or fail.
measure-the-water-flux-at-7c05bc6b = Measure the water flux at the reference temperature: no correction is made here.
a-liquid-that-is-not-272fc3c9 = a liquid that is not stated
re-wet-and-retest-under-cc784257 = Re-wet and retest under a deviation.
method-asks-5adf6a80 = { $name } { $what }, method asks { $demand }
flush-volume-b8efbff1 = flush volume
liquid-temperature-0f3dec43 = liquid temperature
stabilisation-time-8b1ebc2a = stabilisation time
measurement-time-7c21eaf0 = measurement time
tested-with-limit-set-for-fd6dc727 = tested with { $gas }, limit set for { $due }
the-limit-counts-gas-at-fd121202 = the limit counts gas at { $temperature } and { $pressure }, and the test at { $temperature2 } and { $pressure2 }
the-trace-runs-s-the-298c77d1 = the trace runs { $span } s, the record says { $time }
the-gas-of-the-trace-816e0a80 = the gas of the trace is at { $warm } °C, the record says { $gas }
the-trace-begins-at-mbar-5f827bc8 = the trace begins at { $begin } mbar, the record says { $pressure }
look-first-at-the-units-92229ab6 = Look first at the units of the columns and at the record; where both are right, the test is repeated under a deviation.
traces-without-a-column-of-ba7c5c9f = { $rig }: traces without a column of the gas temperature ({ $n }, the first of { $id }): whether the gas warmed while the pressure fell is not known, and no flow is corrected for it.
record-gas-temperature-c-with-4e140d05 = Record gas_temperature_c with the pressure, or explain how the gas is kept at one temperature.
revision-has-no-test-conditions-2f8e3590 = { $id } revision { $revision } has no test_conditions for the stage { $stage }: how the membrane was wetted is held against nothing in its tests ({ $n }).
lay-down-liquid-flush-volume-7f2b267d = Lay down liquid, flush volume, temperature and times for this stage in the next revision.
a-test-was-made-inside-6ec0d9e4 = A test was made inside the conditions of the method.
a-pass-of-a-membrane-7d32b681 = a pass of a membrane that was not wet, not settled, or tested with another gas
when-the-test-is-not-bb0a37fc = When the test is not the one that decides about the element.

## src/rules/r42.rs

take-it-out-of-the-ce3a36e6 = Take it out of the release; a deviation decides what becomes of it.
no-item-that-does-not-3448a239 = No item that does not conform is in the release.
a-reject-that-is-shipped-f078fcc3 = a reject that is shipped

## src/rules/r43.rs

hold-it-measure-better-under-0208c26d = Hold it; measure better under a plan approved beforehand, agree on another decision rule with the customer, or reject. Testing until it passes is not among them.
no-undecided-item-is-in-281c5294 = No undecided item is in the release, where the rule is guarded acceptance.
a-value-within-its-uncertainty-e7a6d96b = a value within its uncertainty of the limit that is called a pass

## src/rules/r44.rs

the-ramp-steps-by-where-396ffc94 = the ramp steps by { $step } where the flow leaves its line, which leaves { $open } open, and its standard uncertainty is { $u }
test-with-smaller-steps-near-4c2e4e4d = Test with smaller steps near the bubble point, or state what a step leaves open as a contribution.
it-stands-on-one-reading-28fa0b7e = it stands on one reading, whose scatter is not known
take-two-readings-or-more-3b87ed6c = Take two readings or more of each sample; their scatter is a part of the uncertainty.
the-specification-f13df649 = the specification
gives-no-contribution-for-without-cf6b3669 = { $name } gives no contribution for { $word }. Without it no verdict is printed.
gives-no-contribution-for-the-dfa270c7 = { $name } gives no contribution for { $word }: the verdicts on it know the scatter of the readings and nothing else.
enter-the-contributions-or-agree-46b449ce = Enter the contributions, or agree on simple acceptance and say so.
the-second-order-moves-the-f3f1a53d = the second order moves the value by { $u } u
one-standard-uncertainty-away-there-a189a355 = one standard uncertainty away there is no value ({ $why })
the-linear-uncertainty-is-not-92c1f671 = { $id }: the linear uncertainty is not good enough: { $bent }.
look-at-it-with-explain-456e4be9 = Look at it with explain --monte-carlo and decide by the interval that was drawn; say so in a deviation.
the-contribution-does-not-fit-0219bd0b = { $name }: the contribution "{ $unused }" does not fit { $id }.
state-it-relative-or-in-0a63d0a3 = State it relative, or in the figure's own unit, or under a source that the figure names.
uncertainty-contributions-exist-for-each-2b299c94 = Uncertainty contributions exist for each judged quantity and can be used.
a-verdict-without-its-doubt-cdfb20cd = a verdict without its doubt
when-the-decision-rule-is-b92a3a2b = When the decision rule is simple acceptance and says so, or when the decision was made by an interval that was drawn.

## src/rules/r45.rs

its-flow-was-not-held-863fec0f = { $element }: its flow was not held against the sum of its modules: { $why }.
mend-what-is-missing-or-e2757c1b = Mend what is missing, or explain why the two cannot be compared: a leaking join can hide under the limit of the assembly.
its-test-sees-a-leak-2927897f = { $element }: its test sees a leak at the joins of { $detection } or more, and { $most } is the most that the specification permits: it is not fit to show that.
over-the-sum-of-its-67356c7c = { $element }: { $figure } over the sum of its modules, and { $most } is the most that the specification permits.
test-it-again-with-less-cb8d60f6 = Test it again with less uncertainty: longer, on one rig, its volume known better. What passes at a join is seen by no other test.
revision-counts-what-flows-over-86035ce7 = { $id } revision { $revision } counts what flows over the sum of the modules in uncertainties alone: the larger its budget, the larger a leak that passes. Its tests see leaks of { $least } to { $most } mL/min and more.
lay-down-under-additivity-check-2aaab131 = Lay down under additivity_check as permitted the leak that is the most allowed, from what it would cost in log reduction.
though-the-assembly-limit-is-ec0af83b = , though the assembly limit is { $limit }
the-limit-alone-would-have-4e34b2a5 = ; the limit alone would have hidden up to { $room }
as-one-hole-about-m-fdd0b5aa = ; as one hole about { $d } µm wide
flow-below-the-sum-of-f4ddcfca = { $element }: flow { $whole }, below the sum of its modules: { $figure } = { $ratio } u.
flow-over-the-sum-of-3b8d5438 = { $element }: flow { $whole }, over the sum of its modules by { $figure } = { $ratio } u{ $limit }{ $hidden }{ $leak }.
less-than-the-sum-of-36c0446b = Less than the sum of the parts cannot be: look at wetting, temperature, or modules that were swapped.
look-for-a-leaking-join-e860c698 = Look for a leaking join, adapter or seal of the housing; retest in a second housing. If the excess moves with the housing, it is the housing.
the-flow-of-an-assembly-413568ed = The flow of an assembly equals the sum of its modules.
a-leaking-join-that-hides-dc9b299f = a leaking join that hides under the assembly limit
between-the-two-levels-of-0840f042 = Between the two levels of the specification, or where the uncertainty reaches beyond the leak that is permitted, by a decided deviation; above the second level or the permitted leak never, but what is held and left out of the release is named as such.

## src/rules/r46.rs

no-uncertainty-is-stated-72eafef5 = no uncertainty is stated
its-bubble-point-lies-below-ee75d9f5 = { $element }: its bubble point lies { $figure } below that of its weakest module, { $ratio } u.
suspect-a-join-or-a-716d659f = Suspect a join or a pack damaged in handling.
its-bubble-point-was-not-f650243c = { $element }: its bubble point was not held against those of its modules: { $why }.
mend-what-is-missing-or-502d355f = Mend what is missing, or explain why the two cannot be compared.
the-bubble-point-of-an-4566d9e4 = The bubble point of an assembly is not more than 3 u below that of its weakest module.
a-pack-or-join-that-79507802 = a pack or join that was damaged on the way

## src/rules/r47.rs

flows-per-module-279080cb = flows per module
no-lot-93bbef0d = no lot
is-below-zero-by-more-0ec67d8c = { $element }: { $computed } is below zero by more than its uncertainty.
pressure-that-rises-is-no-4a25d571 = Pressure that rises is no flow: the gas warmed, a valve let gas in, or the columns are mixed up. Test again.
a-module-ml-min-being-ec3a2af1 = { $element }: { $computed } a module, { $median } mL/min being the median of { $lot }.
too-good-outlet-valve-shut-747c4a6e = Too good: outlet valve shut, wrong gas, a dry or blocked area, or the volume entered wrong? Diffusion through a wet membrane cannot be that low. Repeat before use.
no-flow-is-implausibly-low-e42c1746 = No flow is implausibly low: below half the median of its lot.
a-shut-outlet-valve-another-3a3e9398 = a shut outlet valve, another gas, or a blocked area that reads like an excellent module
by-a-decided-deviation-that-d749b44f = By a decided deviation that names the thing; a flow below zero of what is to be released never.

## src/rules/r48.rs

traces-of-gas-flow-a31a72ab = traces of gas flow
the-fits-a-hole-better-cec3ff9c = { $id }: the { $quantity } fits a hole better than diffusion (residuals { $hole } times smaller).
decay-d315e55d = decay
ramp-below-the-bubble-point-40f34e05 = ramp below the bubble point
spray-or-bubble-test-a-af35ff37 = Spray or bubble-test { $element }; a flow below the limit is no proof that nothing is broken.
flow-falls-with-pressure-as-d9e1901d = Flow falls with pressure as diffusion does, not as through a hole.
a-hole-that-stays-below-8fd3eb44 = a hole that stays below the limit
by-a-decided-deviation-of-3c9dea45 = By a decided deviation of category test_invalid or nonconforming_product that names the test.

## src/rules/r49.rs

and-have-the-same-trace-c4c930b3 = { $id } and { $id2 } have the same trace ({ $name } and { $file }).
identical-noise-in-two-tests-d4e5b9ef = Identical noise in two tests does not occur: fetch both originals from the instrument.
and-have-the-same-readings-49e53d9f = { $id } and { $id2 } have the same readings, one after the other.
two-tests-do-not-repeat-ba9f92c8 = Two tests do not repeat each other to the last digit: look which of them was copied, and measure what was not.
and-share-readings-in-a-8332164f = { $id } and { $id2 } share { $what } readings in a row that differ from each other alike ({ $name } and { $file }).
noise-does-not-repeat-itself-13ac4aea = Noise does not repeat itself: fetch both originals from the instrument.
no-two-tests-share-a-a597d95e = No two tests share a trace, or a stretch of its noise.
one-good-trace-for-two-08149fd9 = one good trace for two elements

## src/rules/r50.rs

modules-with-control-limits-c811b361 = modules with control limits
control-limits-of-are-to-339b1ff3 = { $id }: { $name } { $computed }; control limits of { $lot } are { $limits } to { $limits2 } { $what }.
within-its-limit-or-not-adb8f0d4 = Within its limit or not, it is unlike the others: look at its pack and its seals.
items-beyond-the-control-limits-9d208c1f = Items beyond the control limits of their lot are pointed out.
an-odd-one-that-passes-49a729b9 = an odd one that passes

## src/rules/r51.rs

printed-as-computed-the-limit-fef1a1c4 = { $element }: { $name } printed as { $printed }, computed { $quantity }: { $limit } the limit { $limit2 } although the print looks equal.
below-9253c0f2 = below
above-a4213c0a = above
the-unrounded-value-was-compared-8861df4d = The unrounded value was compared.
unrounded-values-are-compared-a-931a14fb = Unrounded values are compared; a printed figure that looks equal to its limit is footnoted.
a-rounding-that-turns-a-c3ad7490 = a rounding that turns a fail into a pass

## src/rules/r52.rs

coupon-is-not-counted-the-6334604b = { $id }: coupon { $coupon } is not counted{ $why }: { $force }, the least of its sample.
coupon-is-not-counted-65a54e94 = { $id }: coupon { $coupon } is not counted{ $why }: { $force }.
a-weak-coupon-that-is-fd799a63 = A weak coupon that is left out makes a strong sample: say in a deviation why it does not count.
inspections-by-a-plan-16c4abcd = inspections by a plan
coupons-were-tested-and-no-675a6edb = { $id }: coupons were tested and no sampling_plan is named.
name-the-plan-without-it-bcde36f9 = Name the plan; without it nothing is decided.
the-specification-has-no-plan-4ac60de5 = { $id }: the specification has no plan { $id2 }.
correct-the-plan-s-name-696acb8c = Correct the plan's name.
sampled-by-and-the-specification-6e859cf4 = { $id }: sampled by { $id2 }, and the specification samples { $quantity } by { $due }.
sample-by-the-plan-that-c0af1503 = Sample by the plan that the limit names.
plan-accepts-whatever-is-measured-fd9d4876 = plan { $id } accepts whatever is measured: its constant is not above zero.
enter-the-constant-of-the-237d2511 = Enter the constant of the standard.
plan-of-the-specification-asks-2347393c = plan { $id } of the specification asks for no sample.
correct-the-plan-c1e79055 = Correct the plan.
is-none-of-the-coupons-82acd75f = { $id }: { $coupon } is none of the coupons of { $id2 }.
find-out-where-it-was-126322df = Find out where it was made; a coupon of another run says nothing of this one.
asks-coupons-has-that-count-c04e5b38 = { $id } asks { $due } coupons, { $id2 } has { $valid } that count.
test-a-spare-or-open-6999c23f = Test a spare, or open a deviation. { $valid } is not { $due }.
block-the-run-the-plan-f3382808 = Block the run; the plan does not accept it.
no-coupon-of-was-tested-6105cbb8 = { $id }: no coupon of { $run } was tested for { $quantity }, which is what such a seal is limited by.
test-coupons-of-this-run-bde3bb61 = Test coupons of this run, or block it.
the-specification-samples-by-and-524315d4 = { $id }: the specification samples { $quantity } by { $plan }, and the run has no coupon.
the-specification-limits-and-neither-2ef9bc65 = { $id }: the specification limits { $quantity }, and neither this run nor another of its lot has a coupon.
is-listed-twice-9d52d832 = is listed twice
counts-and-has-no-force-a8a99bdc = counts and has no force
coupon-4aa5959c = { $id }: coupon { $id2 } { $wrong }.
correct-the-record-a-coupon-6cf007f3 = Correct the record; a coupon counts once, with its force.
no-result-of-its-coupons-149dcb0c = { $id }: no result of its coupons { $missing }.
test-them-and-record-it-a491856f = Test them and record it, or say in a deviation what became of them.
is-not-evaluated-a105cd32 = { $name } is not evaluated: { $why }
sample-size-and-acceptability-constant-657e22ea = Sample size and acceptability constant of the plan are met.
a-sample-that-is-too-cc142eb8 = a sample that is too small to say anything

## src/rules/r53.rs

sampling-plans-da7680b0 = sampling plans
its-edition-10610903 = its edition
the-inspection-level-922b0a78 = the inspection level
the-aql-6fe76ae2 = the AQL
normal-tightened-or-reduced-1ffa1337 = normal, tightened or reduced
says-but-not-7273152e = { $id } says "{ $what }" but not { $missing }.
state-it-a-plan-switches-a47b8ad2 = State it: a plan switches between states, and which one was used decides the risk.
a-plan-of-a-published-5a207386 = A plan of a published standard names edition, level, AQL and the state of switching.
a-sample-size-that-nobody-f7817101 = a sample size that nobody can check
by-a-decided-deviation-of-9253adc2 = By a decided deviation of category data that names the plan.

## src/rules/r54.rs

destroyed-modules-bdaa7dad = destroyed modules
is-in-destroyed-as-sample-a3a59e60 = { $id } is in destroyed_as_sample and in { $assembly }.
one-is-wrong-quarantine-48bdbf25 = One is wrong; quarantine { $assembly }.
destroyed-samples-are-not-shipped-8b0d789b = Destroyed samples are not shipped.
a-sectioned-module-that-is-3a0278ca = a sectioned module that is on paper in an element

## src/rules/r55.rs

no-deviation-names-it-67a600c1 = { $id }: { $bad }; no deviation names it.
open-one-a-scrapped-part-d3c0c920 = Open one; a scrapped part still needs it.
every-failed-or-undecided-result-1889f47e = Every failed or undecided result has a deviation.
an-unwanted-result-that-nobody-9dff406f = an unwanted result that nobody speaks of

## src/rules/r56.rs

retests-7266d185 = retests
a-retest-was-authorised-before-178dd0a7 = A retest was authorised before it ran, for an allowed reason with evidence, within the allowed number.
testing-until-it-passes-f333f941 = testing until it passes
never-the-result-before-the-eaa6f566 = Never; the result before the retest stands. What is held and left out of the release is named as such.

## src/rules/r57.rs

tested-elements-454a7b2d = tested elements
is-test-and-is-due-6e946201 = { $id }: { $id2 } is test { $number }, and { $due } is due.
find-test-or-correct-the-1e4a1b4b = Find test { $due }, or correct the number.
revision-changes-what-revision-measured-2c12a729 = { $id } revision { $revision } changes what revision { $revision2 } measured: { $changed }.
a-repeat-is-a-record-f3356932 = A repeat is a record of its own, with its own run; the first result stands until then.
is-left-out-508ab0dc = { $word } is left out
another-trace-of-b0d887fa = another trace of { $word }
another-verdict-on-d370a402 = another verdict on { $word }
another-verdict-on-a-seal-bff0c68e = another verdict on a seal
a-seal-that-was-looked-06d4cf51 = a seal that was looked at is left out
another-force-of-coupon-7cc692bd = another force of coupon { $id }
coupon-is-left-out-fb748f53 = coupon { $id } is left out
all-results-are-kept-the-fc5c784d = All results are kept: the tests of an element are numbered without a gap.
a-test-that-was-left-dfca0ba9 = a test that was left out

## src/rules/r58.rs

deviations-923f6b65 = deviations
discloses-which-is-not-in-1065d79f = { $id2 } discloses { $id }, which is not in this folder.
add-the-deviation-or-correct-40bd3a9c = Add the deviation, or correct its id.
is-not-decided-45fc346f = { $id } is not decided: { $why }.
decide-hold-retest-or-reject-1a322016 = Decide hold, retest or reject, and have it approved by a person who may.
touches-and-was-decided-after-f6547ee1 = { $id } touches { $lot } and was decided { $approved }, after { $id2 } was signed for release { $signed }.
release-again-as-the-next-8e4ed071 = Release again, as the next revision, with the decision known.
touches-and-is-not-disclosed-d78845f0 = { $id } touches { $lot } and is not disclosed in { $id2 }.
add-it-to-deviations-disclosed-65e36458 = Add it to deviations_disclosed; the customer sees it.
no-deviation-is-open-and-240c025a = No deviation is open, and each that touches a released lot is disclosed.
a-deviation-that-the-customer-b7b235af = a deviation that the customer never hears of

## src/rules/r59.rs

times-limit-97027642 = { $lot }: { $reason } { $count } times (limit { $limit }).
the-step-needs-work-not-88072714 = The step needs work, not the single module.
modules-and-none-was-tested-64dd7408 = { $id }: { $count } modules, and none was tested again or rejected.
one-to-four-in-a-3da4299d = One to four in a hundred are usual (common practice, no source): ask whether every result is here.
the-same-reason-for-a-9bcebff8 = The same reason for a retest does not recur more often in a lot than the maker allows.
a-step-that-needs-work-5b79a320 = a step that needs work, hidden in single retests

## src/rules/r60.rs

seal-runs-and-joins-3c7c2f96 = seal runs and joins
and-name-for-windows-that-77bffb1e = { $id } and { $first } name { $document } for windows that differ.
write-the-window-that-the-ff1e44a8 = Write the window that the document lays down, with its revision.
no-seal-run-of-the-21fc912e = { $id }: no seal_run of the type { $seal } names it.
add-the-record-of-the-bc993300 = Add the record of the run that sealed its pack into the end caps.
join-is-said-to-be-498a27d6 = { $assembly_id }: join { $joint } is said to be of { $run }, which does not list it.
find-out-in-which-run-e82e5ad5 = Find out in which run it was made: its setting, its trace and its coupons vouch for this join.
is-of-seal-type-and-464b3005 = { $assembly_id }: { $run } is of seal_type { $is }, and a run of { $due } is due.
name-the-run-that-made-8a44d7b4 = Name the run that made this seal, or correct its type.
seal-run-is-missing-75683ef0 = { $assembly_id }: seal run { $run } is missing.
add-its-record-with-trace-4dc1e08a = Add its record with trace.
modules-and-joins-02c0352a = { $assembly_id }: { $count } modules and { $joints } joins.
record-every-join-with-its-cc730047 = Record every join with its seal run.
its-validated-window-names-no-d62d5df4 = its validated_window names no range.
write-each-range-that-was-82b8f92c = Write each range that was validated, as "A .. B" with units.
the-window-of-cannot-be-4c7f7a04 = the window "{ $window }" of { $key } cannot be read.
write-a-b-with-units-e9e9fb3a = Write "A .. B" with units.
window-7640ebf4 = { $words }, window { $window }.
block-what-was-sealed-in-7fe9090a = Block what was sealed in it; the trace counts, not the number that was written.
was-set-to-window-88111bc2 = { $key } was set to { $set }, window { $window }.
block-what-was-sealed-in-15d3a9cc = Block what was sealed in it; weld validation decides.
has-a-window-and-no-18913fbc = { $key } has a window and no actual value.
add-it-from-the-machine-32e1b833 = Add it from the machine's export.
cannot-be-held-against-the-a2fffc77 = { $name } "{ $actual }" cannot be held against the window { $window }{ $why }.
write-a-number-with-a-bc235d93 = Write a number with a unit of the same kind.
window-affected-fb30dd72 = { $key } { $actual }, window { $window }. Affected: { $items }.
block-them-weld-validation-decides-673bd0c3 = Block them; weld validation decides.
no-trace-shows-its-f94b260c = no trace shows its { $key }
the-trace-stands-at-c-3df67138 = the trace stands at { $median } °C
in-the-middle-half-of-a9acb771 = in the middle half of its trace { $count } of { $all } readings lie outside, { $low } °C to { $high } °C
every-seal-has-a-run-11aed8bf = Every seal has a run, and what was done lies inside the validated window.
a-cold-or-burnt-seal-ed4b0a7d = a cold or burnt seal

## src/rules/r61.rs

seals-and-fittings-a3545cd0 = seals and fittings
an-unnamed-item-c7bb495d = an unnamed item
gap-or-slit-d7887800 = gap or slit { $gap }
bead-6cc88cc7 = bead { $bead }
the-inspector-said-fail-db7443d6 = the inspector said fail
only-a-continuous-bead-is-3a1f18f7 = Only a continuous bead is sound: write continuous where it is, and do not use what is not.
do-not-use-it-a-c7de24c9 = Do not use it; a seal with an opening is not mended.
nobody-looked-at-its-seal-3f522e1d = { $item }: nobody looked at its seal of { $id }.
look-at-every-seal-and-cafcec3e = Look at every seal, and record it.
nobody-says-whether-the-stainless-b76fc5ae = nobody says whether the stainless ring turns
nobody-says-whether-the-tip-16edfdd0 = nobody says whether the tip drains
nobody-says-how-much-play-e1e2635c = nobody says how much play the stainless ring has
it-is-said-to-have-7a440217 = it is said to have no o-ring
look-and-record-what-is-7af00771 = Look, and record what is seen.
the-stainless-ring-does-not-cf6a663a = { $id }: the stainless ring does not turn.
do-not-ship-the-plastic-23d7538a = Do not ship: the plastic grips the ring and may crack at a steam cycle.
the-tip-does-not-drain-5609c252 = { $id }: the tip does not drain.
do-not-ship-water-that-e5c14c2b = Do not ship: water that stays grows what the filter should hold back.
its-pack-was-seen-to-eddc6445 = { $id }: its pack was seen to be "{ $visual }".
do-not-build-it-in-83c3a683 = Do not build it in; write accepted only when nothing was seen.
its-build-names-no-081f8a7a = { $assembly }: its build names no { $missing }.
record-what-was-fitted-with-7087e70d = Record what was fitted, with its lot and its seal run.
passed-without-a-word-of-b9d4968a = { $item }: passed without a word of { $unsaid }
look-at-it-again-and-8ab86013 = Look at it again, and write what is seen.
passed-with-a-bead-that-99c44b43 = { $item }: passed with a bead that has no width
passed-although-was-seen-e24c20fd = { $item }: passed although "{ $seen }" was seen
say-in-a-decided-deviation-47367026 = Say in a decided deviation why it may be used, or do not use it.
its-end-stands-twice-05302ca2 = { $module }: its end "{ $end }" stands twice
of-its-two-ends-were-51e03e35 = { $module }: of its two ends { $seen } were looked at
nobody-looked-at-join-fabf0da0 = { $id }: nobody looked at join { $joint }.
joins-are-recorded-between-positions-d262bbaf = { $id }: { $count } joins are recorded between positions { $lower } and { $upper }, and one is due.
every-seal-seen-is-accepted-e214ab9a = Every seal seen is accepted, without gap or slit; the ring turns; the tip drains.
a-leak-a-gripped-ring-0a3bddad = a leak, a gripped ring that cracks the adapter when steamed, or water that stays

## src/rules/r62.rs

marks-d9763829 = marks
find-out-which-is-true-5de99556 = Find out which is true before anything else; do not mark it again.
identity-inferred-its-mark-cannot-a6917c75 = { $item }: identity inferred: its mark cannot be read, every other mark of the lot can, and the lot balances ({ $id }).
never-mark-it-afterwards-without-05e070c2 = Never mark it afterwards without a record.
is-called-legible-and-what-8f8b99b6 = is called legible, and what it reads is not recorded
reads-without-6dd8a598 = reads "{ $what }" without "{ $due }"
reads-the-number-of-55ec6d09 = reads "{ $what }", the number of { $other }
the-mark-9d1ff82b = { $item }: the mark { $wrong }.
hold-it-identity-by-elimination-208db1dd = Hold it. Identity by elimination is a concession: exactly one unread module, a lot that balances, and a decided deviation of category marking that names it. Never mark it afterwards without a record.
expects-the-product-code-of-e68f9ff5 = expects the product code { $code }, of which there is no specification
expects-the-rating-and-the-09dfb4d9 = expects the rating { $rating }, and the specification says { $nominal_rating }
expects-no-on-the-marks-c2b6b736 = expects no { $unsaid } on the marks
expects-the-batch-and-the-a5657792 = expects the batch { $batch }, and the lot is { $lot_id }
the-rub-test-failed-marks-11945e2d = the rub test failed: marks do not stay
each-module-and-assembly-that-f9f02158 = Each module and assembly that was read bears product code, batch and rating, and they match.
an-element-that-says-something-20df76ac = an element that says something else than its record

## src/rules/r63.rs

symbols-b6a18206 = symbols
more-than-once-013f0188 = ({ $code }) more than once
no-serial-number-12726417 = no (21) serial number
lot-ce98046b = (10){ $batch }, lot { $lot_id }
no-batch-1e99db1e = no (10) batch
its-symbol-holds-9ae8b5ef = { $item }: its symbol holds { $wrong }.
find-out-which-element-it-13010895 = Find out which element it is; replace the symbol and record it.
the-symbol-on-an-assembly-c8d351cc = The symbol on an assembly decodes to its own id and batch.
two-elements-with-one-number-eb7f109f = two elements with one number

## src/rules/r64.rs

claims-in-words-f3a4697e = claims in words
its-mark-says-and-aba96625 = { $item }: its mark says "{ $what }", and { $wrong }.
the-label-says-which-no-86f56d2c = { $id }: the label says "{ $what }", which no record here can support or deny.
say-in-a-deviation-of-8cbabb97 = Say in a deviation of category marking what supports it, or remove the words.
the-label-says-and-8e82c4f1 = { $id }: the label says "{ $what }", and { $wrong }.
the-statement-says-and-b7b5d8da = { $id }: the statement says "{ $what }", and { $wrong }.
no-conforming-challenge-with-brevundimonas-82291fcb = no conforming challenge with Brevundimonas diminuta at 0.2 um supports it
remove-the-words-4a8d11ac = Remove the words. { $product }
no-cycle-claim-reaches-that-382634ce = no cycle claim reaches that temperature
print-the-temperature-of-the-25edd768 = Print the temperature of the claim, or remove the words.
no-material-lot-has-a-44555864 = no material lot has a declaration for food contact
remove-the-words-or-bring-b175d588 = Remove the words, or bring the declarations.
words-that-deny-something-are-f5571a16 = words that deny something are no claim that a record can support
put-them-into-the-limitations-8b2e02f3 = Put them into the limitations of the statement.
the-specification-says-0f51ca4d = the specification says { $nominal_rating }
find-out-which-is-true-9c62e2ad = Find out which is true before anything else; do not label it again.
no-challenge-of-this-folder-a5774ce1 = No challenge of this folder supports any word on retention.
what-may-be-said-membrane-57ba67f3 = What may be said: membrane { $material_lot } was challenged with { $challenge_total } of { $name }; log reduction at least { $q } at 95 % confidence ({ $id }).
words-on-label-and-certificate-5dbcab7a = Words on label and certificate are supported by a record.
a-claim-that-nobody-ever-d6e67061 = a claim that nobody ever tested

## src/rules/r65.rs

challenge-runs-8b4e2a58 = challenge runs
is-not-evaluated-94330512 = { $id } is not evaluated: { $why }.
correct-the-record-or-repeat-ff5d5d2f = Correct the record, or repeat the challenge.
state-the-claim-as-lrv-39c560f9 = State the claim as "LRV >= 7.0 at 0.45 um".
colonies-from-show-lrv-b004cd81 = { $id }: { $colonies } colonies from { $challenge_total } show LRV ≥ { $quantity }, { $limit }.
not-wrong-not-enough-use-8786bd74 = Not wrong, not enough. Use runs that reach the claim, or repeat it with more organisms; exclude this one by a deviation and keep it visible.
not-used-for-the-claim-3d0d8575 = {" "}Not used for the claim ({ $id }).
run-on-is-not-5e56c47e = { $id } run { $run }: { $challenge_total } on { $exposed_area } is not { $density }.
find-out-which-of-the-c96167c6 = Find out which of the three is wrong.
shows-and-the-rating-of-666054ce = { $id } shows "{ $claim }", and the rating of { $id2 } is { $rating }.
a-challenge-of-another-rating-a6543603 = A challenge of another rating shows nothing of this one; correct the claim or the product.
challenged-with-which-the-rating-7cac156e = { $id }: challenged with { $name }, which the rating of { $id2 } does not name.
say-in-a-deviation-of-bbf43165 = Say in a deviation of category exclusion what this challenge is for, or repeat it with the organism of the rating.
has-no-run-39e17aeb = has no run
has-two-runs-of-one-da7f1473 = has two runs of one number
record-every-run-once-numbered-f0648e04 = Record every run once, numbered from 1.
a-challenge-could-have-shown-611d67e6 = A challenge could have shown what is claimed: the lower bound reaches the claim.
zero-colonies-out-of-a-54451d2a = zero colonies out of a small challenge, sold as complete retention
when-a-decided-deviation-takes-6985c58d = When a decided deviation takes the run out of the claim; it stays visible.

## src/rules/r66.rs

challenges-b9882937 = challenges
incubated-until-from-on-3fa6a835 = { $id }: incubated until { $end }, from { $start } on.
correct-the-times-plates-that-0fc343d8 = Correct the times; plates that were not incubated show nothing.
the-laboratory-states-and-run-f376abba = { $id }: the laboratory states "{ $said }", and run { $run } counts { $colonies } colonies.
ask-the-laboratory-which-of-52ebab3d = Ask the laboratory which of the two is right.
in-run-the-bubble-point-28b0043f = { $id }: in run { $run } the bubble point fell from { $before } to { $after }: the sample was no longer the one that was to be challenged.
find-out-when-it-was-49b2236f = Find out when it was damaged, and repeat the run.
has-no-controls-bec2e1b5 = { $id } has no controls.
without-controls-a-challenge-shows-d762abab = Without controls a challenge shows nothing; repeat it.
the-control-is-called-valid-3b2757ae = { $id }: the control { $kind } is called valid and shows nothing: the whole challenge is void, its zero counts too.
repeat-the-challenge-147346da = Repeat the challenge.
grew-bc902964 = grew
is-4d334b20 = is { $verdict }
is-missing-c19c4cbd = is missing
record-it-under-controls-as-d6627d47 = Record it under controls as { $kind } with its verdict, as the laboratory reports it; if it was not made, repeat the challenge.
the-control-the-whole-challenge-7eabcab5 = { $id }: the control { $kind } { $why }: the whole challenge is void, its zero counts too.
the-controls-of-a-challenge-80f9789c = The controls of a challenge are valid, and its samples stayed whole.
zero-colonies-of-organisms-that-676bd597 = zero colonies of organisms that were dead

## src/rules/r67.rs

rolls-in-the-release-d9e97398 = rolls in the release
supplier-lot-has-no-challenge-544beabc = { $roll } (supplier lot { $supplier_lot }) has no challenge.
challenge-a-roll-of-that-6bd5cc39 = Challenge a roll of that supplier lot, or take its elements out of the release.
the-challenged-supplier-lot-is-c77bd8e6 = The challenged supplier lot is the one in the product.
a-claim-that-rests-on-31b752f9 = a claim that rests on another membrane

## src/rules/r68.rs

at-717532b3 = { $treatment } at { $most }
has-no-declaration-for-food-7bb5b901 = { $lot } ({ $what }) has no declaration for food contact.
ask-the-supplier-for-one-f4805460 = Ask the supplier for one that covers its use.
has-no-declaration-under-regulation-9021f3a1 = { $lot } ({ $what }) has no declaration under Regulation (EC) 1935/2004, to which the release declares conformity.
ask-the-supplier-for-one-cc3c5031 = Ask the supplier for one, or say in the statement to what it does not apply.
does-not-say-what-it-55c40b87 = does not say what it covers
covers-b06adfda = covers "{ $words }"
gives-its-temperature-in-degrees-356e7075 = gives its temperature in degrees Fahrenheit
ask-the-supplier-for-a-c0c09f75 = Ask the supplier for a declaration that covers the use: foods, time, temperature, repeated use.
covers-and-the-claim-includes-280e6188 = { $document } covers "{ $covers }", and the claim includes { $treatment } ({ $lots }).
if-no-food-is-present-f95b261b = If no food is present during that treatment and a rinse follows, record that reasoning in a deviation that names the document; ask the supplier about repeated use after it.
every-wetted-part-has-a-4a534abc = Every wetted part has a declaration for food contact.
a-part-that-was-never-30781637 = a part that was never declared fit for food

## src/rules/r69.rs

declarations-7b1b3d40 = declarations
says-without-the-amendment-eu-b8da26bb = { $document } says "{ $law }" without the amendment (EU) { $what }; it covers { $lots }.
ask-the-supplier-whether-it-a992278f = Ask the supplier whether it still holds.
declarations-for-food-contact-name-7d6a3345 = Declarations for food contact name the regulation as amended.
a-declaration-that-a-change-8be4320d = a declaration that a change of the law has overtaken
by-a-decided-deviation-of-b24928ac = By a decided deviation of category data that names the document.

## src/rules/r70.rs

treatments-of-installed-elements-42c2c930 = treatments of installed elements
cycles-of-over-the-claim-08b3ae21 = { $assembly_id }: { $used } cycles of { $part }, { $quantity } over the claim.
take-it-out-of-service-54489a71 = Take it out of service; the claim says nothing about the next cycle.
cycles-of-and-7783926a = { $assembly_id }: { $used } cycles of { $part }, and { $why }.
ask-the-maker-in-writing-bcfe7dc4 = Ask the maker in writing before further use.
cycles-of-are-numbered-after-78639e30 = { $assembly_id }: cycles of { $treatment } are numbered { $list } after { $carried } carried forward; { $due } to { $due2 } are due.
find-the-cycle-that-is-63caea6f = Find the cycle that is missing or doubled; until then count the highest number.
no-assembly-build-knows-it-e205b676 = no assembly_build knows it
fitted-before-it-was-built-05704d41 = fitted { $time }, before it was built
cycles-lie-before-it-was-50567c4f = cycles lie before it was fitted
cycles-lie-after-it-was-1cc36795 = cycles lie after it was taken out
find-out-which-element-it-b057c5a4 = Find out which element it is, and which time is wrong.
cycles-of-over-its-logs-6a8ac196 = { $element }: { $life } cycles of { $treatment } over its { $count } logs, { $over } over the claim.
take-it-out-of-service-554af202 = Take it out of service; the claim says nothing about the next cycle. Where a log counts what an earlier one counts too, enter that in count_carried_forward.
cycles-used-do-not-exceed-5592fd6e = Cycles used do not exceed the claim, each treatment on its own.
an-element-that-is-used-f80f406d = an element that is used beyond what was ever tested

## src/rules/r71.rs

its-log-names-revision-of-e90d3012 = { $assembly_id }: its log names revision { $revision } of { $claim }, and the latest here is { $latest }.
name-the-revision-that-was-1d94ec4b = Name the revision that was handed over with the element.
temperature-max-is-no-temperature-f6a8da20 = temperature_max "{ $told }" is no temperature with its unit
c-against-ffb86bbb = { $hottest } °C against { $limit }
held-against-ba92b48b = held { $held } against { $limit }
pressure-difference-against-16ef4474 = pressure difference { $had } against { $limit }
of-which-the-claim-says-49130ebb = { $name } { $had }, of which the claim says nothing
cycle-outside-the-claim-0f5ee5c4 = { $assembly_id }: { $treatment } cycle { $sequence }: { $bad }; outside the claim.
each-cycle-lay-inside-the-851e33bc = Each cycle lay inside the conditions of its claim.
a-treatment-that-was-hotter-5bbbf64d = a treatment that was hotter or harder than anything that was tested

## src/rules/r72.rs

and-more-2c8e064e = and { $more } more
most-of-the-hold-of-af09ca20 = { $assembly_id }: most of the hold of { $count } cycles lies less than { $margin } K above the hold temperature, and the recorder may be wrong by as much: { $list }.
hold-hotter-within-the-claim-47063651 = Hold hotter within the claim, or know the recorder better: such a hold may not have been hot enough at all.
cycle-while-hot-its-trace-33572742 = { $assembly_id }: { $treatment } cycle { $sequence }: while hot its trace is { $beyond } K away from the temperature of saturated steam at its pressure.
above-it-is-dry-superheated-f49d2f3f = Above it is dry, superheated steam, below it air, or a sensor is wrong: neither heats as saturated steam does. Find out which.
cycle-was-started-and-its-33a70823 = { $assembly_id }: { $treatment } cycle { $sequence } was started { $start }, and its trace begins { $begun }.
it-is-the-trace-of-6bad0648 = It is the trace of another cycle, or one clock is wrong. Find out which.
operator-s-statement-only-442d2524 = operator's statement only
counter-of-the-line-only-d7baf1a7 = counter of the line only
evidence-says-trace-and-none-67c7e493 = evidence says trace and none is named
its-trace-never-reaches-the-c0e4f9d9 = its trace never reaches the hold temperature
cycle-counted-as-used-not-da66c7a8 = { $assembly_id }: { $treatment } cycle { $sequence }: { $why }. Counted as used, not as proof.
find-out-what-was-recorded-60e6c331 = Find out what was recorded; a cycle that was not hot has treated nothing.
connect-the-recorder-to-the-7d12736b = Connect the recorder to the valve that starts the cycle.
a-cycle-stated-without-evidence-92865e91 = A cycle stated without evidence counts in full against life and not at all as proof.
a-treatment-that-nobody-recorded-bccbae00 = a treatment that nobody recorded

## src/rules/r73.rs

tests-in-service-and-runs-542293f7 = tests in service and runs
is-called-a-pass-and-d93b3c41 = is called a pass and lies beyond the limit
installation-b406bcc8 = installation { $time }
the-passed-test-of-ad238a4c = the passed test of { $time }
the-test-of-all-that-1abe81b8 = { $id }: the test of { $time } ({ $test }) { $words }. All that was filtered since { $since } is suspect: { $test2 }.
wet-it-again-and-test-f1d502fc = Wet it again and test once more under the site's rule, and keep both results; whether the wine is held is the customer's decision.
correct-the-times-which-wine-1bbd4419 = Correct the times; which wine went through which filter hangs on them.
no-integrity-test-in-service-8546ae09 = no integrity test in service is recorded
passed-no-test-after-1d8272aa = passed { $time } ({ $stage }), no test after
the-bracket-is-open-4713611c = { $id }: { $open }; the bracket is open.
test-before-the-next-run-73894f90 = Test before the next run; until then the bracket is named on the page.
run-of-tested-before-no-46f65821 = run { $run } of { $from }: tested before, no test after
run-of-no-test-before-93143bca = run { $run } of { $from }: no test before
run-of-no-test-before-f85c5f65 = run { $run } of { $from }: no test before and none after
run-ends-before-it-begins-009d40ab = run { $run } ends before it begins
run-begins-before-run-ends-bd8d656b = run { $next } begins before run { $one } ends
is-of-another-kind-of-9669f6a7 = is of another kind of quantity than its limit
does-not-say-at-which-daf702e4 = does not say at which pressure it was made
was-made-at-another-pressure-aa8e1738 = was made at another pressure than its limit
has-no-verdict-and-no-564b704c = has no verdict and no limit to be held against
run-d36e7420 = run { $run } ({ $volume })
the-log-names-no-run-9fb03191 = the log names no run in that time
each-production-run-is-bracketed-9421cb26 = Each production run is bracketed by integrity tests; a failed one marks the bracket.
wine-that-was-filtered-through-356b5730 = wine that was filtered through a filter that had failed
an-open-bracket-by-a-0e30370b = An open bracket by a decided deviation of category data that names the log; a failed test never.

## src/rules/r74.rs

installed-elements-bd1109e2 = installed elements
in-service-since-limit-days-52b9361e = { $assembly_id }: in service since { $time }, limit { $limit }, { $days } days.
take-it-out-of-service-2911d013 = Take it out of service, whatever the cycle count.
time-in-service-lies-within-8c935ef9 = Time in service lies within the age limit of the claim.
an-element-that-is-older-84c6dd95 = an element that is older than anything that was tested

## src/rules/r75.rs

stands-in-and-in-at-9f63645f = { $id } stands in { $id2 } and in { $id3 } at one time.
read-the-symbol-in-the-7136131c = Read the symbol in the housing; until then the cycles of both count against it.
one-element-is-in-one-a4a4494a = One element is in one housing at a time.
cycles-that-are-counted-for-d8923982 = cycles that are counted for the wrong element

## src/rules/r76.rs

name-of-the-issuer-6478a513 = name of the issuer
address-of-the-issuer-23092436 = address of the issuer
name-of-the-customer-1b5ce970 = name of the customer
order-732c1097 = order
place-of-issue-834b80ee = place of issue
requirements-01987941 = requirements
limits-on-validity-8426073c = limits on validity
name-function-and-signature-of-64554b3a = name, function and signature of the authorised person
retention-date-b760a197 = retention date
a-retention-date-that-the-e24088f1 = a retention date that the retention_period of the specification asks
a-statement-that-the-items-3c0291db = a statement that the items conform
the-specification-among-the-requirements-2bd9da7a = the specification among the requirements
the-person-who-signs-for-96f01dff = the person who signs for release as the authorised person
a-specification-of-the-product-75bef362 = a specification of the product
requirements-in-a-revision-that-1f3678f2 = requirements in a revision that is in this folder
items-as-many-as-the-d82d18e4 = items as many as the quantity says
is-of-lot-not-33e408a2 = is of lot { $lot }, not { $lot_id }
holds-of-lot-not-b743b911 = holds { $module } of lot { $own }, not { $lot_id }
correct-the-list-and-sign-df81d126 = Correct the list and sign again.
missing-98f844f7 = { $id }: missing: { $name }.
add-it-and-sign-again-859e5f31 = Add it and sign again.
the-release-statement-has-every-d9d26497 = The release statement has every mandatory item.
a-certificate-that-says-less-381f2912 = a certificate that says less than it must (ISO/IEC 17050-1, list from memory)

## src/rules/r77.rs

signatures-b8d67a3a = signatures
and-bear-one-printed-name-c6cddcdf = { $other } and { $person } bear one printed name, { $name }.
two-persons-must-be-told-63e038a3 = Two persons must be told apart on paper.
nobody-signs-as-author-3f330cf7 = nobody signs as author
have-the-person-sign-who-16da86e0 = Have the person sign who made the dossier from these records.
signs-as-and-is-899443ba = { $person_id } signs as "{ $printed_name }", and is { $name }
find-out-who-signed-correct-afae06c7 = Find out who signed; correct the record and sign again.
signs-as-and-is-authorised-d659bd9d = { $person_id } signs as { $function }, and is authorised as { $own }
the-signature-policy-knows-no-047f7337 = the signature policy knows no meaning { $meaning }
use-a-meaning-of-the-ec5029dc = Use a meaning of the policy, or revise the policy.
signs-as-which-the-policy-92452dae = { $person_id } signs { $meaning } as { $function }, which the policy does not allow
have-a-person-of-an-ff91ac36 = Have a person of an allowed function sign.
signs-both-and-4b7c8e5f = { $person_id } signs both { $other } and { $meaning }
the-policy-asks-for-two-2d572e97 = The policy asks for two persons.
nobody-signs-which-the-policy-c6ef65a0 = nobody signs { $meaning }, which the policy asks for
have-it-signed-94eea0ae = Have it signed.
signs-no-digest-and-is-f047016b = { $person_id } signs no digest, and { $due } is the one to be signed
sign-the-digest-63ca3d41 = Sign the digest.
that-of-revision-a8dd7429 = , that of revision { $revision }
the-digest-that-signed-is-fa6e5b88 = the digest that { $person_id } signed is { $signed }{ $old }, not { $due }
sign-the-present-revision-0843f33d = Sign the present revision.
signatures-are-complete-and-bound-513f3dee = Signatures are complete and bound to the digest of what was signed.
a-signature-that-was-given-80a71c3d = a signature that was given for something else

## src/rules/r78.rs

revised-records-and-release-statements-58a1194d = revised records and release statements
supersedes-revision-which-is-not-14721113 = { $id } supersedes { $id2 } revision { $revision }, which is not in this folder.
add-the-superseded-record-as-c52f7b91 = Add the superseded record as it was; nothing is ever taken away.
says-that-it-supersedes-which-0df15521 = { $id } says that it supersedes { $id2 }, which has another id and is still current.
give-both-one-id-and-677ff22c = Give both one id, and this one the next revision.
which-is-not-before-it-dbb04c73 = which is not before it
a-revision-supersedes-the-one-cd162b15 = A revision supersedes the one before it.
and-the-one-between-is-82e81e75 = and the one between is passed over
each-revision-supersedes-the-one-57a480ff = Each revision supersedes the one before it; add what is between.
which-is-not-in-this-82fdcdf2 = which is not in this folder
which-is-dated-after-it-8d290e01 = which is dated after it
find-out-which-time-is-1b00d9b1 = Find out which time is wrong.
revision-supersedes-revision-cfd49859 = { $id } revision { $revision } supersedes revision { $number }, { $how }.
is-released-by-and-by-e8fe568e = { $id } is released by { $id2 } and by { $id3 }, which are both current.
withdraw-one-4bfa1f43 = Withdraw one.
this-dossier-supersedes-revision-without-bea3fa7c = this dossier supersedes { $id } revision { $revision } without naming its digest.
name-it-if-that-revision-c17791c5 = Name it if that revision was ever issued: an old copy is then told from any other.
this-dossier-is-revision-and-6b17be53 = this dossier is revision { $revision } and does not say which it supersedes.
name-under-supersedes-the-id-c1f1e374 = Name under supersedes the id, revision and digest of the dossier before; compile with --supersedes shows what changed.
revision-of-lists-other-modules-23099083 = { $id } revision { $revision } of { $written } lists other modules than before, and { $assembly_id } was released { $signed }.
read-the-marks-on-the-d8457804 = Read the marks on the element; tell the customer which modules it holds, and release it anew.
each-record-has-exactly-one-d29a6d91 = Each record has exactly one current revision; superseded ones are present and marked.
a-revision-that-vanished-or-8f71d56c = a revision that vanished, or two that both count

## src/rules/r79.rs

by-since-f09ec058 = { $decision } by { $id } since { $time }
since-c3e3f0c6 = { $incoming_status } since { $day }
the-customer-5021a884 = the customer
contains-3679186e = { $assembly } contains { $why }: { $reason }.
stop-stock-tell-today-and-86285595 = Stop stock, tell { $told } today, and revise the statement with the list: sealfolio review --affected-by { $id }
what-says-5f862f4a = what { $id } says
modules-of-lot-1a31902b = modules of lot { $lot }
what-was-judged-by-57a30dbf = what was judged by { $id }
of-lot-63216cc8 = { $module } of lot { $lot_id }
judged-by-2c23d2ac = { $module }, judged by { $id }
from-b0be6357 = { $module } from { $roll }, { $id }
under-5de27f0e = { $module } under { $document }
from-df2f08c0 = { $module } from { $roll }
from-of-supplier-lot-1ce7d568 = { $module } from { $roll } of supplier lot { $supplier_lot }
of-seal-run-975ba145 = { $module } of seal run { $id }
end-caps-2212a66d = end caps { $cap }
joins-of-seal-run-6ea9e828 = joins of seal run { $id }
nothing-that-is-released-is-a807ac10 = Nothing that is released is on hold or recalled, nor is anything that it was made from.
a-released-element-whose-material-aaeb357b = a released element whose material was withdrawn later

## src/rules/r80.rs

this-is-the-maker-s-eeb57b86 = this is the maker's whole folder, not a customer's copy of it
customer-s-copies-91b8c8cc = customer's copies
a-customer-s-copy-shows-7f27308b = A customer's copy shows every own item in full and every other item as a sealed leaf.
a-customer-s-copy-that-10bc0738 = a customer's copy that leaves something out
never-the-copy-is-made-290684a0 = Never: the copy is made again.

## src/rules/r81.rs

finished-copies-407c4094 = finished copies
it-looks-at-a-compiled-57f60001 = it looks at a compiled copy ({ $count } records are read here): run `sealfolio verify COPY`
the-finished-copy-verifies-every-346ecfc9 = The finished copy verifies: every file listed, every digest right.
a-copy-that-was-damaged-53f0cccd = a copy that was damaged on the way

## src/rules/r82.rs

slit-coils-c551b203 = slit coils
no-module-was-cut-from-fd0af6ae = no module was cut from it
modules-were-cut-from-it-dc87704b = { $n } modules were cut from it: { $used }
stop-what-contains-it-measure-dca70452 = Stop what contains it; measure the strips, and look at blades and guides.
no-strip-outside-its-width-8f530c34 = No strip outside its width went into a module.
a-module-whose-membrane-does-8a8906e8 = a module whose membrane does not fit

## src/rules/r83.rs

packs-and-layers-c542f656 = packs and layers
find-out-what-was-pleated-c8abdf19 = Find out what was pleated; hold the modules until then.
the-membrane-of-is-none-66a89337 = the membrane { $roll } of { $module_id } is none that { $id } allows
the-is-none-that-allows-b823f1d5 = the { $word } { $lot } is none that { $id } allows
no-is-named-and-has-8b2e084f = no { $word } is named, and { $id } has one
a-layer-is-named-and-3ddbfb35 = a layer { $key } ({ $lot }) is named, and { $id } has none
a-pack-is-built-from-26b1d1da = A pack is built from the layers that the stack of its product allows.
a-pack-with-a-wrong-4de74943 = a pack with a wrong or missing layer

## src/rules/r84.rs

fits-strengths-and-stacks-ec54a0b1 = fits, strengths and stacks
is-not-evaluated-1934d9c8 = { $id } is not evaluated: { $why }
change-dimension-tolerance-or-claim-190d626b = Change dimension, tolerance or claim; measure it on elements after their first cycle.
mend-what-keeps-it-from-2b16bca8 = Mend what keeps it from being evaluated; nothing is known of it until then.
correct-the-record-a-clearance-0b3654e9 = Correct the record; a clearance that was worked out for another state says nothing.
is-no-hotter-in-its-a9917642 = { $id } is no hotter in its hottest state than in its coldest
is-looked-at-up-to-4ef96f94 = { $id } is looked at up to { $hottest }, and the claim goes to { $claimed }
the-core-is-no-smaller-fe522304 = the core is no smaller than the cage
pleats-of-do-not-fit-1cb8cbba = pleats of { $pleat_height } ({ $id }) do not fit between core and cage
no-strength-was-tested-in-d7222361 = no strength was tested in the { $direction } direction at { $hot } or above, and { $pressure } of { $treatment } is claimed
no-strength-was-tested-in-0d0da048 = no strength was tested in the { $direction } direction, and a pressure difference is claimed
no-fit-says-what-must-68e503c1 = no fit says what must keep clear of what
clearances-core-and-pleats-have-baa26798 = Clearances, core and pleats have room left within their uncertainty.
a-ring-that-grips-a-5a4132d6 = a ring that grips, a pack that jams, a core that gives way

## src/rules/r85.rs

flow-tests-of-used-elements-12f9d7af = flow tests of used elements
flow-recovery-is-not-evaluated-82fd7f72 = flow recovery is not evaluated: { $why }
take-it-out-of-service-eb9d7071 = Take it out of service, or regenerate it once more and test again; keep both results.
its-flow-is-said-to-0cc7acc5 = { $element }: its flow is said to be that of a new element, after { $cycles } cycles.
write-the-stage-in-which-628ad13e = Write the stage in which it was tested; what was used is held against what it passed when new.
water-flow-after-cycles-or-8f0e1ba6 = Water flow after cycles or a regeneration is above its limit.
an-element-that-regeneration-no-bd3df08a = an element that regeneration no longer helps

## src/rules/r86.rs

claims-dc8edc14 = claims
cycles-are-claimed-and-were-9a76e3f2 = { $cycles_claimed } { $treatment } cycles are claimed and { $cycles_tested } were tested
claim-no-more-than-was-141ffa16 = Claim no more than was tested.
the-claim-of-cycles-rests-111b6276 = the claim of { $cycles_claimed } { $treatment } cycles rests on its report alone; no endurance_study is in this folder
add-the-study-so-that-a65cb991 = Add the study, so that its data can be judged here.
has-results-of-which-is-f8948e6a = { $id } has results of { $element }, which is none of its elements
list-every-element-that-was-c68ed0e7 = List every element that was treated: one that is left out is not counted, however it ended.
it-failed-there-say-so-08f87a6f = It failed there: say so, and claim no more than every element reached.
count-no-more-cycles-than-10d0302f = Count no more cycles than were reached with room for the doubt of the measurement, or measure better.
elements-are-said-to-be-ab009ad3 = { $elements_tested } elements are said to be tested, { $id } has { $count }
state-how-many-were-tested-02e07b71 = State how many were tested.
the-claim-of-cycles-is-5434ab7c = the claim of { $cycles_claimed } { $treatment } cycles is not shown at its conditions: { $id } { $milder }
claim-the-conditions-that-were-99e444d5 = Claim the conditions that were tested, or test those that are claimed.
cycles-are-said-to-be-64d6b302 = { $cycles_tested } { $treatment } cycles are said to be tested, and an element of { $id } reached only { $fewest } intact
state-what-every-element-reached-c44dd03c = State what every element reached, and what became of the others.
of-elements-of-failed-every-13b19288 = { $failed } of { $count } elements of { $id } failed; every element reached { $fewest } { $treatment } cycles intact
say-so-where-the-claim-720f06f3 = Say so where the claim is used.
supports-no-number-of-cycles-1c2938d4 = { $id } supports no number of cycles: { $why }
complete-the-study-or-take-cbfc87a8 = Complete the study, or take the claim back.
cycles-are-claimed-supports-7fe4015a = { $cycles_claimed } { $treatment } cycles are claimed, { $id } supports { $computed }
claim-no-more-than-the-1526fcd7 = Claim no more than the data support, or test more elements for longer.
had-the-claim-says-79ab1f92 = had { $what } { $had }, the claim says { $what2 }
does-not-state-the-claim-34bdeba5 = does not state { $what }, the claim says { $what2 }
the-temperature-7a0f331e = the temperature
the-time-of-a-cycle-ee4296ff = the time of a cycle
the-forward-pressure-difference-06e46013 = the forward pressure difference
the-reverse-pressure-difference-1e352ef4 = the reverse pressure difference
bubble-points-that-are-called-4bec06fe = { $id }: bubble points that are called intact lie nearer to the limit than twice their standard uncertainty ({ $n }, the nearest { $value } of { $element } at { $cycle } cycles)
of-is-called-intact-at-c161041f = { $element } of { $id } is called intact at { $cycle } cycles with a { $what } of { $what2 }
takes-as-the-least-bubble-f4960297 = { $id } takes { $own } as the least bubble point, below that of the specification
no-claim-of-cycles-exceeds-2ed47333 = No claim of cycles exceeds what the data support.
a-claim-beyond-what-was-022fb6cb = a claim beyond what was ever tested

## src/rules/r87.rs

measurement-studies-and-results-beside-af2fb376 = measurement studies, and results beside budgets and certificates
repeatability-is-not-evaluated-8e0c159e = repeatability is not evaluated: { $why }
complete-the-study-each-element-31fe47cd = Complete the study: each element at least twice by each operator.
the-specification-of-has-no-be4708c8 = the specification of { $product_code } has no contribution { $contribution } of { $quantity }
enter-what-the-study-shows-9f277285 = Enter what the study shows.
of-is-budgeted-at-and-25daf70a = { $contribution } of { $quantity } is budgeted at { $budget } %, and the study shows { $computed }
enter-what-the-study-shows-712fc13f = Enter what the study shows in the specification; every verdict is then made again.
of-is-said-to-have-091c53f6 = { $contribution } of { $quantity } is said to have { $stated } degrees of freedom, and the study has { $shown }
enter-those-of-the-study-163115e3 = Enter those of the study.
revision-counts-for-and-the-08c62e6c = { $id } revision { $revision } counts { $stated } % for { $source }, and the calibration of { $instrument } leaves { $shown } % in doubt (k = 1, with the error that was left), as in { $test }.
enter-what-the-certificate-states-b88c20c6 = Enter what the certificate states, or have the instrument calibrated better; every verdict is then made again.
the-uncertainty-budget-is-no-a8c5c814 = The uncertainty budget is no smaller than what a measurement study or a certificate shows.
verdicts-that-rest-on-too-559cc8d5 = verdicts that rest on too small an uncertainty

## src/rules/r88.rs

bring-the-evidence-or-say-a72da778 = Bring the evidence, or say to whom the requirement is not met.
there-is-no-kind-of-e7594d9c = there is no kind of record { $kind }
a-dossier-is-no-evidence-ca36b6cf = a dossier is no evidence of itself
no-is-here-89de9a2e = no { $kind } is here
record-is-missing-31789f75 = record { $id } is missing
there-is-no-figure-9a80fe9a = there is no figure { $figure }
no-is-here-e3bdf844 = no { $figure } is here
chapter-is-missing-877e6fed = chapter { $chapter } is missing
it-names-no-evidence-09c555cc = it names no evidence
every-requirement-has-evidence-and-13887e45 = Every requirement has evidence, and the evidence holds.
a-requirement-that-everybody-believed-45e00bff = a requirement that everybody believed somebody had shown

## src/rules/r89.rs

records-that-were-taken-from-f35aacc3 = records that were taken from exports
names-the-mapping-revision-which-39d1eae0 = { $record } names the mapping { $id } revision { $revision }, which is not here.
put-the-mapping-back-without-3a4eda43 = Put the mapping back: without it nobody can take the record from its export again.
can-no-longer-be-taken-3240982d = { $file } can no longer be taken in by { $id }: { $message }.
of-its-rows-make-no-ce0a0c52 = { $file }: { $count } of its { $all } rows make no record: { $words }.
see-that-none-of-them-20c7e95e = See that none of them is a result that somebody left out.
no-word-tells-which-9559b997 = no word tells which
line-of-gives-and-there-b548d2b1 = Line { $line } of { $file } gives { $id }, and there is no such record.
take-the-export-in-again-a24823af = Take the export in again; a test that was made is never left out. If it must not count, a deviation says why.
is-given-by-line-of-ab85d273 = { $id } is given by line { $line } of { $file } and does not say that it was taken from there.
take-the-export-in-again-e41a5553 = Take the export in again, or write a revision that supersedes the record and says why it differs.
says-for-and-line-of-d026969b = { $id } says { $theirs } for { $field }, and line { $line } of { $file } gives { $mine }.
put-back-what-the-export-c2bde359 = Put back what the export gives. If the export is wrong, write a revision that supersedes the record and says why.
is-said-to-be-taken-6b8da824 = { $id } is said to be taken from { $file }, which gives no such record.
find-out-where-it-comes-a17f89c9 = Find out where it comes from; a record that was typed in does not name an export.
a-record-that-was-taken-d649217a = A record that was taken from an export says what the export says, and none is left out.
a-value-that-was-changed-f485bce9 = a value that was changed after it had been taken in, or a bad test that was taken out

## src/rules/r90.rs

revised-records-of-work-722ff933 = revised records of work
revision-changes-what-revision-says-d539b38f = { $id }: revision { $after } changes what revision { $before } says: { $changes }.
decide-a-deviation-of-category-71ea171d = Decide a deviation of category data that names "{ $revision }" and says how it is known which is right; what was measured again is a record of its own.
was-is-left-out-e5cad269 = { $path } was { $old }, is left out
is-added-d8913b3c = { $path } is added: { $new }
has-more-c8458780 = { $path } has { $more } more
was-is-0c4f1ee4 = { $path } was { $old }, is { $new }
a-later-revision-changes-what-9e01aa6c = A later revision changes what was measured, made or seen only under a decided deviation.
a-bad-result-that-a-cfac931c = a bad result that a typing error took away
by-a-decided-deviation-of-faa6978f = By a decided deviation of category data, test_invalid, marking or exclusion that names the record with its revision, as MT-1 revision 2.

## src/rules/r91.rs

specifications-and-claims-ef901a5b = specifications and claims
there-is-no-personnel-authorisation-83498675 = there is no personnel_authorisation
have-it-approved-by-a-f6b2f0de = Have it approved by a person of personnel_authorisation who may approve_specification, as its next revision.
approved-it-who-may-not-a004c0c0 = { $by } approved it, who may not approve specifications on { $day }
a-specification-and-a-claim-ea50a621 = A specification and a claim were approved by somebody who may, and who did not write them.
limits-that-somebody-gave-to-67992138 = limits that somebody gave to themselves

## src/rules/r92.rs

elements-to-be-released-and-1af7b16e = elements to be released and limits laid down
measures-neither-bubble-point-nor-81802720 = { $element }: { $id } measures neither bubble point nor diffusive flow.
the-specification-of-has-no-fe51fa28 = { $element }: the specification of { $id } has no limit for: { $free }.
lay-the-limit-down-for-fa651667 = Lay the limit down for this stage in the next revision of the specification, or test what it limits.
revision-nothing-is-ever-held-8f0c0e4e = { $id } revision { $revision }: nothing is ever held against the limit { $limit } of { $quantity } at the stage { $stage }.
lay-it-down-at-a-883f00ec = Lay it down at a stage where this quantity is measured and judged, or say who holds it and where that is recorded.
what-shows-that-an-element-9710f609 = What shows that an element to be released is intact is held against a limit.
a-pass-because-nobody-laid-6b5dd4c7 = a pass because nobody laid down what would fail

## src/rules/r93.rs

traces-of-a-pressure-decay-e3e6d590 = traces of a pressure decay
let-the-rig-settle-longer-55df2b42 = Let the rig settle longer, keep draught and sun away, and test again; or explain why the flow stands.
the-gas-changed-by-k-df0160e1 = { $id }: the gas changed by { $kelvin } K while its pressure fell. The flow is computed for dry gas; if it was full of vapour, as it may be over a wet membrane, the flow is { $flow } mL/min more, { $ratio } u.
the-first-half-of-the-7b6a24fd = { $id }: the first half of the decay shows { $first } mL/min and the second { $second }: the gas had not settled, or something opened.
the-gas-of-a-flow-4926c06a = The gas of a flow test was at rest: it kept its temperature, and its pressure fell evenly.
a-leak-that-gas-still-3d48836c = a leak that gas still settling or warming hides
by-a-decided-deviation-of-8ebc7477 = By a decided deviation of category test_invalid that names the test.
