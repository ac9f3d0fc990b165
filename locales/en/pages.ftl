# Written from the sources by `cargo run --example words`; not to be edited.

## src/agreement.rs

published-bc488789 = published
reference-library-3503e6c1 = reference library
common-practice-7984cd95 = common practice
case-from-outside-the-program-08964fb4 = 1 case from outside the program ({ $kinds }) goes through this very formula; it agrees in { $digits } significant digits, which may be all that its source prints.
cases-from-outside-the-program-41bebfdb = { $n } cases from outside the program ({ $kinds }) go through this very formula; the worst agrees in { $digits } significant digits, which may be all that its source prints.
no-case-from-outside-the-621a5185 = No case from outside the program goes through this formula whole: none is known. Its parts (fluid properties, statistics, propagation of uncertainty) are checked on their own.
the-worked-example-is-computed-29becff3 = The worked example is computed a second time by a law that shares no code with the program, and must agree to the last printed digit; the tests also alter the formula in every small way and expect the example to notice.
uncertainty-first-order-cause-by-5d39d1ae = Uncertainty: first order, cause by cause (JCGM 100:2008, 5.2); causes that two readings share are added before squaring. Its slopes are held against dual numbers, and its result against drawing (JCGM 101:2008) for each kind of figure that has a limit.

## src/chart/mod.rs

there-is-nothing-to-draw-78048103 = there is nothing to draw

## src/chart/ways.rs

genealogy-2df57eae = Genealogy

## src/page/affected.rs

all-that-has-to-do-c0ae4144 = All that has to do with { $about }
to-b1cbe026 = { $name } to { $name2 }
thing-by-thing-every-module-9fbcccd9 = Thing by thing: every module and assembly that has to do with it, and where each is now.
things-9e7a4f34 = things
to-do-with-it-1e46bcfc = { $what }; to do with it: { $modules }, { $assemblies }.
what-would-be-affected-e1ddeafd = What would be affected
thing-78c7c40f = thing
what-it-is-1c27d380 = what it is
consigned-to-40cc1ff4 = consigned to
totals-agree-1f3b0402 = totals agree
yes-4e9f3590 = yes
not-to-be-said-of-2c88df92 = not to be said of a copy
no-62366ffa = no
recall-a31133d0 = Recall
for-each-roll-lot-of-f37f7702 = For each roll, lot of material, run of seals, instrument, machine and person who recorded something: every module and assembly that has to do with it, and where each is now.
things-cdbb7d54 = Things
for-a-period-ask-the-608a0b2b = For a period, ask the program: sealfolio review FOLDER --affected-by ID --from 2026-03-01 --to 2026-03-31.
totals-4f1f0daa = Totals
what-856e942f = what
where-056c1458 = where
how-many-c6d16c30 = how many
all-7da6e506 = all { $what }
whether-the-totals-agree-is-172a5f77 = Whether the totals agree is not to be said of a copy, which does not show every record.
to-be-told-3d63adab = To be told: { $told }.
assemblies-an-element-is-affected-fc5a14f7 = Assemblies; an element is affected as a whole
why-18f40e39 = why
where-it-is-d6b32d63 = where it is
in-service-d541fb61 = in service
modules-e74c644a = Modules
by-record-8ffe4579 = by record
metres-c1a63c0d = metres
none-ada7afdb = none
the-first-of-are-listed-27c8c9ab = The first { $n } of { $all } are listed here; the totals count them all. The whole list: sealfolio review FOLDER --affected-by { $id }.
assemblies-9a8da7b9 = Assemblies
all-that-has-to-do-87343146 = <p><a href="{ $id }">all that has to do with { $id2 }, and where it is now</a></p>

## src/page/certificate.rs

not-stated-7ce64cc5 = not stated
what-this-document-is-e4e9b28e = What this document is
document-96234bd4 = document
revision-b132b696 = { $id } revision { $revision }
kind-d913e243 = kind
issuer-796ffab6 = issuer
place-and-date-of-issue-e82de86f = place and date of issue
place-not-stated-62fcc35c = place not stated
date-not-stated-3fcf3ab7 = date not stated
customer-and-order-2820071c = customer and order
order-c57e6fb4 = { $customer }, { $customer2 }, order { $customer3 }
dispatch-note-21a9d589 = dispatch note
product-and-lot-e9a41bf2 = product and lot
lot-17100e80 = { $product_code }, lot { $lot_id }
quantity-4b728fd8 = quantity
kept-until-1201e2cd = kept until
recipient-of-this-copy-4d418c10 = recipient of this copy
copy-no-38c87d71 = ________________  copy no. ____
items-and-their-results-value-ad0cf748 = Items and their results: value ± standard uncertainty (limit); the expanded one, which decides, stands on each sheet
length-83d03615 = length
diffusive-flow-d9bcb340 = diffusive flow
bubble-point-65911f89 = bubble point
over-the-sum-of-its-f3f621ab = over the sum of its modules
verdict-d5805e56 = verdict
revision-3cb9bfca = revision { $what }
statement-of-conformity-2892c4a3 = Statement of conformity
requirements-d66e45ab = Requirements: { $requirements }.
decision-rule-of-revision-20cb7167 = Decision rule of { $id } revision { $revision }: { $guard }; { $basis }.
guarded-rejection-with-a-guard-a9530c7c = guarded rejection with a guard band of { $guard } U
guarded-acceptance-with-a-guard-7e89499a = guarded acceptance with a guard band of { $guard } U
simple-acceptance-the-risk-is-4b0ba53d = simple acceptance, the risk is shared
basis-not-stated-b50aeb8b = basis not stated
what-the-rating-means-78abb9c1 = What the rating means: { $rating_basis }.
identity-dfc1d0bb = Identity
items-e036382f = Items
signatures-by-hand-on-the-f5f74903 = Signatures by hand, on the printed sheet
meaning-22ac6744 = meaning
printed-name-ca4cf3b0 = printed name
function-9ed64249 = function
named-in-the-record-a260a283 = named in the record
signature-and-date-23717634 = signature and date
authorship-i-made-this-dossier-05cbcf1c = authorship: I made this dossier from these records
review-i-am-independent-of-66d6894a = review: I am independent of the work and checked it
release-i-accept-responsibility-for-bf0d6cbb = release: I accept responsibility for this consignment
not-to-be-signed-7288a36c = not to be signed
signatures-30f3a55a = Signatures
a-name-in-a-record-9fc0eaff = A name in a record is no electronic signature.
the-digest-that-is-signed-4a73aac0 = The digest that is signed is that of the whole dossier, printed by the program when it was compiled and by any tool that hashes tagmanifest-sha256.txt; write it here:
the-digest-that-was-signed-07856ba6 = The digest that was signed is that of the whole dossier of the maker: { $digest }. Compare it with the signed paper:
sha256-07065998 = sha256: ________________________________________________________________________
validity-ed7ef017 = Validity
valid-unless-superseded-ask-the-ceba0642 = Valid unless superseded; ask the issuer for the number of the current revision. An old copy cannot know that it is old.
cautions-compressed-gas-stores-energy-6be17794 = Cautions: compressed gas stores energy; nitrogen suffocates; steam and hot water burn; chemicals need their own safety data sheets. Local law, codes and licensed practice come first. A release is the decision of the qualified person who signs, and does not replace the user's own integrity test at the point of use.
certificate-revision-2fb4c1bf = Certificate { $id } revision { $revision }
issued-with-test-results-of-50e2b6ce = Issued { $date }. With test results of each item named.
on-no-stated-date-bce5882e = on no stated date
release-1036ae7e = release
lot-13b9ab33 = lot { $lot_id }
root-over-all-records-sha-fec461ed = Root over all records (SHA-256)
it-stands-in-bag-info-ca634a9d = It stands in bag-info.txt of the dossier and of every customer's copy; two readers who compare it know that they speak of the same records.
proposed-not-made-one-finding-e87214d6 = Proposed, not made: one finding blocks this statement, and nobody is to sign it. As proposed: “{ $statement }”
proposed-not-made-findings-block-f2d918a0 = Proposed, not made: { $n } findings block this statement, and nobody is to sign it. As proposed: “{ $statement }”
tested-again-the-assembly-or-6e233c31 = {" "}Tested again, the assembly or a module in it, every result kept: { $again }.
diffusive-flow-at-of-wetted-dcee7bee = Diffusive flow at { $p } of { $test_gas }, wetted with { $wetting_liquid }, counted at { $temperature } and { $pressure } absolute.{" "}
a-pressure-that-is-not-6ef4009c = a pressure that is not stated
a-gas-that-is-not-9fe7cba2 = a gas that is not stated
a-temperature-that-is-not-6c6f48a7 = a temperature that is not stated
log-reduction-of-the-test-78694d98 = Log reduction of the test organism at least { $least } at 95 % confidence in every challenge that this copy shows; the signed certificate has that of all.
log-reduction-of-the-test-5419a0a3 = Log reduction of the test organism at least { $least } at 95 % confidence in every challenge that counts.
limits-and-claims-in-force-ee68449f = Limits and claims in force
cycle-claim-revision-36a39b0c = Cycle claim { $id } revision { $revision }: { $list }. { $combination_rule }.
not-to-be-signed-yet-117d41eb = Not to be signed yet: { $n } findings about these items must still be explained by a decided deviation.
deviations-that-touch-the-lot-5d7899c5 = Deviations that touch the lot
deviation-bf78da54 = deviation
what-happened-0e79ec90 = what happened
decision-6f65abe3 = decision
none-yet-4a20bcd9 = none yet
not-in-this-folder-6e4ac471 = not in this folder
deviations-and-what-is-not-859ff158 = Deviations, and what is not released
every-assembly-of-the-lot-6bbaffe3 = Every assembly of the lot is in this release.
of-the-same-lot-and-25a5fd36 = Of the same lot and in other releases: { $out }.
of-the-same-lot-and-ab080ee5 = Of the same lot and not released: { $out }.
of-the-same-lot-and-fb086209 = Of the same lot and not in this release: { $out }. Whether another release holds them stands in the dossier of the maker.
no-deviation-touches-the-lot-41221584 = No deviation touches the lot.
membrane-74b84bc0 = membrane
no-declaration-861a5f56 = no declaration
food-contact-7b16414d = Food contact
declarations-for-food-contact-part-50c96a71 = Declarations for food contact, part by part. They are documents of their own, referred to by number.

## src/page/changes.rs

against-the-dossier-that-this-3e2ebf36 = Against the dossier that this one supersedes: records, figures, verdicts, findings, what is released, who signs.
changes-7ec50eea = Changes
against-which-dossier-7c64ed3c = Against which dossier
this-dossier-does-not-say-7ef78299 = This dossier does not say that it supersedes another.
it-supersedes-revision-which-was-512ed491 = It supersedes { $id } revision { $revision }, which was not at hand when this was compiled. Whoever has both sees what changed with: sealfolio compare OLDER THIS.
revision-digest-sha-it-was-45db306e = { $id } revision { $revision }, digest (SHA-256) { $digest }. It was whole by its own manifest when it was read, and its figures were computed again from its records; what was used of it is sealed here in previous.json. All of that is the word of whoever compiled this dossier; sealfolio compare OLDER THIS asks the older one itself.
verdicts-3a5ff55f = Verdicts
figures-with-another-verdict-d9dd4a78 = Figures with another verdict
altered-under-the-same-revision-9f92b050 = Altered under the same revision
none-whatever-was-changed-has-390c7a2a = None: whatever was changed has a new revision.
their-lines-differ-and-their-d53f1624 = Their lines differ, and their revision does not say so. Ask why.
records-593ef94d = Records
findings-c03749ef = Findings
findings-that-came-7468264a = Findings that came
findings-that-went-9b685106 = Findings that went
nothing-changed-edfc294c = Nothing changed.
how-01c3ac8d = how
before-3845ff3e = before
after-1b6e7dc9 = after
came-96ef186b = came
went-d8b9cf23 = went
became-another-d64f46cd = became another
weight-50a09eb9 = weight
what-it-says-4302e918 = what it says

## src/page/counted.rs

module-cf08885c = 1 module
modules-2f645f46 = { $n } modules
assembly-fce0cb60 = 1 assembly
assemblies-ef77bb7d = { $n } assemblies
record-23065661 = 1 record
records-90790b51 = { $n } records
run-8c254b71 = 1 run
runs-ca79265f = { $n } runs
test-be03ae30 = 1 test
tests-12754d16 = { $n } tests

## src/page/customer.rs

about-this-copy-e49f7013 = About this copy
of-which-dossier-it-is-25739748 = Of which dossier it is a copy, what it shows, what it withholds, and what that proves.
a-customer-s-copy-da79caf7 = A customer's copy
this-is-a-copy-of-b8372526 = This is a copy of the lots { $lots } of { $identity }. All their records are here or sealed; other lots are withheld.
as-its-bag-info-txt-c88fbd80 = As its bag-info.txt states
field-67826267 = field
value-425ed3ca = value
the-signed-dossier-f15c4dd1 = The signed dossier
its-digest-is-sha256-the-455eaae3 = Its digest is sha256:{ $digest }. The signatures below are over that number; the root, which stands in it, is the same on every copy, so that two customers can compare it.
signed-by-8dba49aa = Signed by
statements-that-were-there-when-72dfff51 = Statements that were there when the copy was taken
name-8d39bde6 = name
person-d397b280 = person
time-5d3c9be4 = time
nobody-had-signed-it-when-2140833d = Nobody had signed it when this copy was taken.
a-page-cannot-check-a-84f5bb9e = A page cannot check a signature that it shows: `sealfolio verify`, or ssh-keygen on the files of signed-dossier/signatures, does.
groups-that-are-shown-each-29d00840 = Groups that are shown, each as a whole
about-b323923e = about
pieces-shown-593f2dff = pieces shown
sealed-c9d809a1 = sealed
what-is-sealed-and-why-c3dd2ac6 = what is sealed, and why
shown-and-withheld-a0018626 = Shown and withheld
a-record-belongs-to-every-662de839 = A record belongs to every lot that it names, or one of whose modules or assemblies it names; what no lot owns stands with its roll, instrument, product or the plant, and is shown where something shown names it.
further-groups-withheld-of-each-7e72a8fb = Further groups withheld: { $n }; of each only one number is here, from which nothing can be read.
lot-4c5165c8 = lot
material-lot-8f2dbd9f = material lot
instrument-9a67fb30 = instrument
product-e548412c = product
the-plant-2ecf0b49 = the plant
what-cannot-be-said-of-c343c833 = What cannot be said of a part
every-rule-says-here-what-8965dfd7 = Every rule says here what it says of the whole dossier.
findings-that-come-from-what-be7a0da6 = Findings that come from what is missing
what-it-would-say-dc9eec5e = what it would say
on-this-part-alone-these-b24a323e = On this part alone these rules would find what they do not find in the whole dossier, because records are withheld. The maker's program says so; the whole dossier shows it.
what-this-proves-and-what-38f8d330 = What this proves, and what not
shown-salted-and-sealed-pieces-af234a42 = Shown, salted and sealed pieces give, hashed together, the root that the signed dossier states: none of these lots' records was changed, left out or added after it was compiled. `sealfolio verify` computes it again.
it-does-not-prove-that-f2bc59fd = It does not prove that a record was ever made, nor that the maker put each into the right group: numbers of runs, the balance of rolls and the whole dossier at the maker's show that.
trends-charts-and-counts-on-357465d6 = Trends, charts and counts on these pages cover what this copy shows, and nothing else.

## src/page/cycles.rs

cycles-bb5f92c6 = Cycles
what-elements-withstand-and-what-f452c47a = What elements withstand, and what they have been through.
claims-22a3e934 = Claims
claim-bd24906f = claim
treatment-3955a00b = treatment
conditions-80e0d0b7 = conditions
claimed-b8b8042e = claimed
tested-b9962aec = tested
elements-tested-76db5ca1 = elements tested
cycles-used-proven-and-left-5bf242ab = Cycles used, proven and left
reported-by-the-customer-the-4b1d56ef = Reported by the customer; the maker has verified none. Every cycle counts against life; only those with a whole trace prove anything.
cycle-33ab3bce = { $assembly_id }, { $treatment } cycle { $sequence }
endurance-studies-c86192f7 = Endurance studies
study-ee4a05ee = study
elements-5a94b0cc = elements
reached-intact-f2ae2450 = reached intact
failed-e0accfb4 = failed
supports-ddc0bc01 = supports
what-the-data-support-74783133 = What the data support
no-endurance-study-is-in-9887634c = No endurance study is in this folder; the claims rest on their reports.

## src/page/endurance.rs

no-line-is-laid-not-b576ec8e = No line is laid: not every element has a number of supported cycles.
no-line-is-laid-d15929fe = No line is laid: { $why }.
may-the-elements-share-one-08ce04b8 = May the elements share one line? Slopes: F = { $slopes }, p = { $slopes2 }; starts: F = { $starts }, p = { $starts2 }; level 0.25 after ICH Q1E (from memory): { $model }. The figure stands on each element's own line whatever this test says, because repeated measurements of one element are not independent of each other; the other models stand beside it.
whether-the-elements-may-share-8fe8019f = Whether the elements may share one line cannot be tested: { $why }.
a-bound-that-meets-its-8e053382 = A bound that meets its limit far beyond the cycles that were tested says that the data do not limit the number, and supports no claim out there: the figure stops at what was reached.
nothing-is-claimed-b5ef6eab = nothing is claimed
are-claimed-f07ed642 = { $claim } are claimed
because-was-found-failed-at-a0881eea = because { $element } was found failed at the next checkpoint, { $found }
and-no-data-reach-further-27ec966e = and no data reach further
where-the-bound-of-the-21499337 = where the bound of the weakest element meets the limit
the-data-support-cycles-against-498be401 = The data support { $n } cycles against a bubble point of at least { $least } ({ $confidence } one-sided confidence for the mean of each element), { $why }; { $claim }.
the-data-support-no-number-b6502336 = The data support no number of cycles against { $least }; { $claim }.
after-cycles-f684ef91 = { $element } after { $cycle } cycles: { $pressure }
mean-of-all-92ee72a2 = mean of all
bound-weakest-52996b4d = bound, weakest
claimed-and-supported-8c6d7175 = claimed and supported
supported-9f44a669 = supported
bubble-point-over-cycles-1b575c77 = Bubble point over cycles, { $id }
thin-lines-are-elements-each-4dcb33b4 = { $words } Thin lines are elements; each point leads to its record.
cycles-754a85a6 = cycles
bubble-point-bar-e6741812 = bubble point, bar
least-allowed-632cf16e = least allowed
fitted-slope-of-each-mbar-c59db101 = Fitted slope of each, mbar a cycle, and in brackets the median of the slopes of all its pairs, which no single point can tilt: { $slopes }.
was-sound-after-cycles-and-0b834a5c = { $element } was sound after { $sound } cycles and failed at { $found }
of-elements-failed-the-reading-b380a150 = { $count } of { $count2 } elements failed: { $failed }. The reading at which an element failed is no part of its line. Each of these lives is known only to lie between two checkpoints, and so few fit no distribution: none is given.
shape-907578ec = { $life } (shape { $shape })
no-element-failed-one-was-132523bd = No element failed; one was not tested beyond zero cycles.
no-element-failed-if-lives-6414105e = No element failed. If lives follow a Weibull distribution, 90 % of elements reach at least so many cycles, with { $confidence } % confidence: { $lives }. The shape is an assumption with no record behind it; this is shown to say how little { $count } elements without a failure prove, and is no figure.
where-the-bound-meets-the-49077759 = Where the bound meets the limit, before rounding and before what was reached
model-b08b665a = model
bound-of-the-mean-07bd382c = bound of the mean
bound-of-one-further-measurement-cfc2bd32 = bound of one further measurement
never-0ac95089 = never
alone-which-failed-at-its-52d41daa = { $element } alone, which failed at { $found }: its line does not know
alone-44a372a2 = { $element } alone
the-weakest-alone-e62b749b = the weakest alone
own-lines-scatter-of-all-13c16f50 = own lines, scatter of all
common-slope-weakest-start-bc212a8d = common slope, weakest start
common-line-cf02cc3e = common line

## src/page/evidence.rs

weld-runs-180cd285 = Weld runs
run-2acd4eca = run
seal-585056a0 = seal
heating-4fde3045 = heating
items-3a79338f = items
inspections-d370c2a0 = inspections
seen-5a45cc6a = seen
gaps-or-slits-6c70695e = gaps or slits
coupons-by-the-sampling-plan-7c8a83fa = Coupons by the sampling plan
joins-and-inspections-f82c6f8c = Joins and inspections
every-weld-by-run-what-08096fab = Every weld by run: what was set, seen and pulled.
challenges-a324b657 = Challenges
challenge-00e7903e = challenge
organism-9ff2abc1 = organism
roll-16ff3d1e = roll
claim-under-test-6fbabe6b = claim under test
runs-1a32ed3b = runs
runs-as-recorded-ee275b1b = Runs as recorded
sample-96e382a7 = sample
area-9b0f2144 = area
organisms-7d044936 = organisms
pressure-difference-547d79b5 = pressure difference
filtrate-4aa6a082 = filtrate
share-counted-473fc446 = share counted
colonies-c5199a17 = colonies
laboratory-method-and-controls-4c07c33a = Laboratory, method and controls
method-controls-1ef76a1f = { $laboratory }; method: { $method }; { $organism }; controls: { $controls }.
none-recorded-c74cd3a1 = none recorded
runs-9a5f395b = Runs
a-run-without-a-colony-42663be3 = A run without a colony shows a lower bound, never complete retention.
retention-f1db8c31 = Retention
what-was-challenged-with-what-b6240357 = What was challenged, with what, and what the count can show.
calibrations-14c58a5c = Calibrations
valid-437cea71 = valid
by-542bcc94 = by
worst-error-as-found-4bf24a4a = worst error as found
limit-32dad934 = limit
to-59a188ce = { $date } to { $date2 }
at-5458116e = { $as_found_error } at { $nominal }
not-used-in-this-dossier-835325b7 = not used in this dossier
used-times-to-601e2ef8 = used { $count } times, { $first } to { $last }
every-use-lies-inside-the-7c1dd9df = Every use lies inside the dates of a calibration; rule R31 checks that its points cover the values used.
uses-lie-outside-the-dates-eca65a5b = { $uncovered } uses lie outside the dates of every calibration.
and-more-c4d740c5 = {" "}and { $records } more
certificate-6ee89395 = <a href="{ $file }">certificate { $file2 }</a>
used-in-0ec103a9 = <p>Used in { $links }{ $rest }.</p>
measurement-studies-0e6cf912 = Measurement studies
none-the-repeatability-in-the-331970a5 = None: the repeatability in the uncertainty budget rests on the maker's word.
instruments-41459e19 = Instruments
which-instrument-calibrated-when-used-6504026e = Which instrument, calibrated when, used for what.
before-and-with-the-error-1457e4d5 = Before, and with the error applied
was-found-out-of-tolerance-fad204a7 = { $instrument } was found out of tolerance
off-at-limit-on-b1975a61 = { $as_found_error } off at { $nominal }, limit { $maximum_permissible_error }, on { $time }. { $since }
no-earlier-calibration-is-here-a0ef24f6 = No earlier calibration is here: every use before that day is affected.
every-use-since-the-calibration-9c7f4fe4 = Every use since the calibration of { $since } is affected: when the drift began is not known.
nothing-of-it-was-consigned-33cde579 = Nothing of it was consigned.
the-cause-is-known-331c969f = The cause is known: { $said }.
the-cause-is-not-known-bc2cc9bc = The cause is not known: { $said }.
cause-6ed03685 = Cause: { $said }.
decision-be93ff03 = Decision
when-7f778519 = when
concerns-78678200 = concerns
nobody-yet-50361ac0 = nobody yet
found-category-33522ecf = Found { $time }; category { $category }.
retest-allowed-by-ba11af83 = Retest allowed by { $by } { $time }.
at-no-stated-time-1f46af73 = at no stated time
effect-ba3a67b2 = Effect: { $impact }.
next-a00d0ac9 = Next: { $next }.
record-40511ba8 = <a href="{ $record }">record</a>
none-304ff7fb = None
no-deviation-is-recorded-a-e26659f7 = No deviation is recorded. A lot without one is itself worth a question.
deviations-6cc58785 = Deviations
what-failed-was-repeated-or-a1d88efe = What failed, was repeated or left out, and who decided.

## src/page/figure.rs

no-uncertainty-contribution-is-stated-9da005b2 = no uncertainty contribution is stated, so no verdict is given
to-line-9a1d7e5c = to line { $line }

## src/page/files.rs

files-as-read-5cea3524 = Files as read
bytes-65b1d004 = bytes
sha-c64cb93d = SHA-256
copy-in-this-dossier-e035d108 = copy in this dossier
from-95cd8075 = from
list-0cfb5881 = list
files-e71d1b30 = Files
every-file-exactly-as-it-b5e10a33 = Every file exactly as it was read; a line leads to the figures that used it.
records-by-kind-092ce588 = Records by kind
by-kind-03fb0b1e = By kind
current-records-in-files-and-aebe05e2 = { $plant } current records in { $unread } files, and { $all } that were superseded: they stand in the files as they were.

## src/page/find.rs

method-ab45f730 = method
element-in-service-988550f1 = element in service
material-d2e4d060 = material
lists-from-a-to-z-a3ca2b18 = Lists from A to Z
find-3e1cd17a = Find
by-id-lot-roll-day-b8855c9b = By id, lot, roll, day or word. Without a script the lists below do the same.
lists-09e2df96 = Lists
from-a-to-z-b0fc0ff9 = From A to Z
everything-that-has-a-name-b4b1e429 = Everything that has a name, by what it is.
find-bdf0855a = find

## src/page/genealogy.rs

membrane-roll-0b70fa9b = membrane roll
is-made-of-from-97ee3118 = { $id } is made of { $modules } from { $rolls }{ $to }.
and-consigned-to-nobody-6d7f5ec6 = , and consigned to nobody
and-consigned-to-fffff3be = , and consigned to { $to }
customer-a4bdaa19 = customer
went-into-and-so-into-f60585d0 = { $id } went into { $modules }, and so into { $assemblies }, and on to { $customers }.

## src/page/glossary.rs

two-three-or-four-modules-9a1434b0 = Two, three or four modules joined end to end, with adapter and end piece: the element that a plant fits into a housing.
the-gas-pressure-at-which-b7d658aa = The gas pressure at which the largest wetted pores open. It falls when a pore or a flaw is larger.
budget-39baa088 = budget
the-list-of-causes-of-936dad13 = The list of causes of an uncertainty, each with its share.
capability-b4cf5a27 = capability
whether-a-process-holds-its-4e7b3b35 = Whether a process holds its limits with room to spare, told by an index and its bound.
conforms-964b8dbe = conforms
inside-the-limit-even-when-c898d579 = Inside the limit even when the whole guard band is held against the value.
control-limits-f256108e = control limits
where-values-of-a-steady-7da3cc90 = Where values of a steady process lie, three standard deviations either side of their centre. They are no limits of the specification.
coupon-a613196b = coupon
a-strip-or-a-join-1d97ccff = A strip or a join made to be pulled or peeled, in place of an element.
coverage-factor-eaf64d7a = coverage factor
by-what-a-standard-uncertainty-9e10eeb4 = By what a standard uncertainty is multiplied so that the interval holds the true value with 95.45 %.
a-record-of-what-did-f0f48ab6 = A record of what did not go as laid down, what was decided, and by whom.
gas-that-dissolves-in-the-2024381f = Gas that dissolves in the liquid of the wetted, intact membrane and passes it. A leak adds to it.
digest-f92455dd = digest
hexadecimal-digits-sha-that-change-7be4fbff = 64 hexadecimal digits (SHA-256) that change when a single bit of a file changes.
does-not-conform-9403bb63 = does not conform
outside-the-limit-even-when-ad9c3d63 = Outside the limit even when the whole guard band is held in the value's favour.
element-4f4d3bf7 = element
a-module-or-an-assembly-e4e60083 = A module or an assembly: whatever is tested as one.
f0-14d2bd2b = F0
minutes-at-c-that-would-b5b8be3d = Minutes at 121.1 °C that would kill as much as the whole cycle did.
a-computed-number-with-its-193f5d40 = A computed number with its formula, inputs, uncertainty, limit, verdict and address.
what-a-rule-has-to-ed9017bc = What a rule has to say of the records: it blocks release, must be explained, or is a note.
guard-band-3a800e51 = guard band
the-margin-that-a-limit-5440e4eb = The margin that a limit is moved by, so that a wrong decision becomes unlikely.
join-residual-af2e400c = join residual
flow-of-an-assembly-over-58313512 = Flow of an assembly over the sum of its modules' flows: what the joins add.
log-reduction-cbabb37c = log reduction
powers-of-ten-by-which-632460e1 = Powers of ten by which a filter lowers the number of organisms of a challenge.
what-was-made-together-under-52a5311c = What was made together under one number.
margin-room-15ef69c8 = margin, room
distance-from-a-value-to-dce29f8a = Distance from a value to its limit, in standard uncertainties.
a-pleated-pack-of-ten-9579f6c8 = A pleated pack of ten inches with core, cage and end caps.
not-evaluated-46f0dafb = not evaluated
data-is-missing-or-the-cfcea63a = Data is missing or the formula does not hold: never a pass.
operating-characteristic-e4291a1d = operating characteristic
the-probability-that-a-sampling-1f766221 = The probability that a sampling plan accepts, over the share of units that fail.
no-limit-1cdb8edd = no limit
reported-only-no-specification-lays-3ca2a7ba = Reported only: no specification lays down a limit for it, so nothing is decided.
recovery-2eadcf06 = recovery
water-flow-after-a-treatment-91fc9c15 = Water flow after a treatment as a share of the flow when new.
retest-c9f42ff4 = retest
a-test-of-an-element-52fbe6b9 = A test of an element that was tested before; it counts only when a deviation allowed it.
membrane-as-it-came-before-7d5e4ac3 = Membrane as it came, before it is slit and pleated.
one-demand-that-all-records-733278f1 = One demand that all records are held against; each says how much it looked at.
trace-813d75ae = trace
the-readings-of-an-instrument-b18049bc = The readings of an instrument over time, in a file of their own.
u-f00c3c10 = u
one-standard-uncertainty-a-room-a60791e4 = One standard uncertainty: a room of 6 u to a limit is six of them.
uncertainty-108720ab = uncertainty
how-far-the-true-value-d208dc96 = How far the true value may lie from the number shown; ± is one standard uncertainty, U the expanded one.
undecided-274d3206 = undecided
the-guard-band-lies-across-a0b0649d = The guard band lies across the value: neither verdict would be sure.
words-and-their-meaning-60bb0464 = Words and their meaning
word-6a98e9fd = word
words-0274af2a = Words
what-the-words-of-this-fde5b201 = What the words of this dossier mean, for a reader who is new to the trade.

## src/page/lists.rs

release-statements-the-first-of-bdfcd958 = Release statements; the first of them stand below in full
release-statements-5efd1400 = Release statements
no-finding-blocks-release-and-a72bfb4d = No finding blocks release, and no release statement is in this folder: it releases nothing.
not-yet-no-finding-blocks-e647e07f = Not yet: no finding blocks release, and { $n } must still be explained by a decided deviation.
no-finding-blocks-release-the-52a6f2fe = No finding blocks release. The release itself is the decision of the person named below, not of this dossier.
not-to-be-released-one-e571e07d = Not to be released: one finding blocks it.
not-to-be-released-findings-559aa753 = Not to be released: { $n } findings block it.
can-it-be-released-7b0c3c87 = Can it be released?
findings-by-weight-8a00b864 = Findings by weight
lots-61c9da81 = Lots
how-to-check-this-copy-c5fe7cdb = How to check this copy
the-short-number-at-the-e350be42 = The short number at the head of every page, { $short }, begins the root over all records. The whole of it stands in bag-info.txt and on every certificate, and is the same on every customer's copy.
what-is-signed-is-the-6fb73960 = What is signed is the digest of the dossier: the SHA-256 of tagmanifest-sha256.txt. It covers every page, so no page can bear it; compare it with the paper that was signed.
what-was-signed-is-the-be616d3e = What was signed is the digest of the dossier that this copy was taken from, { $digest }; compare it with the paper that was signed. The digest of this copy is another.
check-this-copy-d43ec4fa = check this copy
figures-by-verdict-84c5baf2 = Figures by verdict
the-figures-that-leave-released-d54077ae = The figures that leave released assemblies the least room to a limit; join residuals, whose room is about three standard uncertainties when nothing leaks, stand on the lots' pages
room-in-standard-uncertainties-f35451ba = room in standard uncertainties
weakest-of-e505197c = weakest of
least-room-25e3fe91 = Least room
issued-by-for-lot-077f6975 = Issued by { $issuer }. For { $customer }. Lot { $lot_id }, { $assemblies }.
limitation-e1ce9fa4 = Limitation: { $limit }.
signatures-named-in-the-statement-f35759dc = Signatures named in the statement
authorship-081635ec = authorship
review-225772e1 = review
a-name-in-a-record-55424a37 = A name in a record is no electronic signature; the person signs the printed certificate, or the sealed dossier.
certificate-to-print-record-07ffd5bd = <p><a href="{ $id }">certificate to print</a> · <a href="{ $record }">record</a></p>
how-values-were-decided-3fa6daae = How values were decided
guarded-acceptance-a-value-conforms-6e503011 = guarded acceptance: a value conforms when it lies inside the limit by { $guard } times its expanded uncertainty, does not conform when it lies outside by as much, and is undecided between
guarded-rejection-a-value-is-08b3827b = guarded rejection: a value is refused only when it lies outside the limit by { $guard } times its expanded uncertainty; an element outside its limit may be accepted, and the risk is the customer's
simple-acceptance-a-value-inside-1d5ee929 = simple acceptance: a value inside the limit conforms; the risk is shared
revision-basis-bf194e31 = { $id } revision { $revision } ({ $product_code }): { $guard }. Basis: { $basis }.
what-this-folder-is-ca0a51cd = What this folder is
dossier-fa4b848a = Dossier
revision-799d41e1 = { $id } revision { $revision }, { $date }. { $name }.
digest-8b17d00e = {" "}(digest { $digest })
supersedes-revision-cf320bfe = Supersedes { $id } revision { $revision }{ $digest }{ $change_reason }.
written-by-sealfolio-with-rules-f9421949 = Written by sealfolio { $what } with { $count } rules and { $what2 } figure definitions. The rules of medicines manufacture are used as a yardstick by choice; nothing here claims compliance with them.
no-rating-in-micrometres-makes-bf31d4a0 = No rating in micrometres makes a filter a sterilising-grade filter; what is claimed, and by which test, stands on the certificate. This copy cannot know whether a newer revision exists: ask the issuer for the current one.
what-the-program-itself-is-7e40a87b = What the program itself is built of stands in its software bill of materials (CycloneDX 1.6), SHA-256 { $digest }; sealfolio bill prints it.
assemblies-of-the-same-lots-3dc204e4 = Assemblies of the same lots that are not in the release
decided-by-0d4c942c = decided by
next-step-32f996da = next step
nothing-in-this-copy-names-e7f2abf5 = nothing in this copy names it
no-deviation-names-it-7d9c965e = no deviation names it
say-why-it-is-left-121c7b0a = say why it is left out
what-is-released-and-what-2a3da3be = What is released, and what is not
assemblies-in-the-release-of-c599d18e = Assemblies in the release: { $count }; of the same lots, not in it: { $rows }.
not-evaluated-there-were-no-d4578d8d = Not evaluated: there were no { $things } to look at.
looked-at-findings-cb606e47 = Looked at { $n } { $things }; findings: { $count }.
rules-428b2d80 = Rules
what-was-checked-over-how-b55dabc4 = What was checked, over how many things, and what was found. A rule that had nothing to look at proves nothing.

## src/page/lots.rs

assemblies-of-the-lot-the-32185922 = Assemblies of the lot, the one with the least room first
least-room-010f6bf1 = least room
state-783132f6 = state
modules-in-no-assembly-b912f2ac = Modules in no assembly
none-every-module-of-the-bb7f3836 = None: every module of the lot stands in an assembly.
tested-and-not-built-in-f2ad8cc7 = Tested, and not built in.
rolls-of-the-lot-a0b56bdc = Rolls of the lot
modules-of-this-lot-3ed1b13e = modules of this lot
where-every-module-went-87192d99 = Where every module went
every-module-of-the-lot-bb19b498 = Every module of the lot, once
which-08d2ece2 = which
started-accounted-for-92e404e1 = Started { $modules_started }, accounted for { $listed }.
reconciliation-46fad59f = <p><a href="{ $record }">reconciliation</a></p>
no-lot-reconciliation-says-where-dda4a85b = No lot_reconciliation says where every module went.
lot-d8b8fe73 = Lot { $id }
membrane-6b2e61e0 = Membrane

## src/page/methods.rs

figure-definitions-6cc0a48f = Figure definitions
address-2c6a2953 = address
in-this-dossier-caa98b77 = in this dossier
methods-6b3f7c19 = Methods
each-figure-s-formula-symbols-8981b9ce = Each figure's formula, symbols, source and limits, from the same definition that computed it.
figures-644aeaae = Figures
uncertainty-958c1f4b = Uncertainty
a-figure-changes-by-its-ee66e087 = A figure changes by its slope c with each input; the proof of a figure has the slope beside each. What one cause makes wrong in several inputs is added first, with its signs: the share of a cause is the sum of c times what it makes of each input. Then u² is the sum of the squared shares (JCGM 100:2008, 5.2).
degrees-of-freedom-are-u-efca6a56 = Degrees of freedom are u⁴ divided by the sum of share⁴/ν over the causes that were found from repeated readings, each with its ν; squared shares of one study are added before (Welch and Satterthwaite; JCGM 100:2008, G.4.1). The result is cut down to a whole number (G.6.4). Causes without degrees of freedom count as known and add nothing to that sum.
u-k-u-covers-k-4955beaa = U = k u covers 95.45 %: k = 2, or with degrees of freedom the quantile of Student's t at 97.725 %, never less than 2.
decisions-72fb1d50 = Decisions
guarded-acceptance-by-g-u-d90fc77a = Guarded acceptance by g U: a figure conforms where it lies inside the limit by at least g U, does not conform where it lies outside by more than g U, and is undecided in between (JCGM 106:2012, 8.3.2). The specification lays g down. Without an uncertainty a guard band decides nothing.
guarded-rejection-by-g-u-3a219c34 = Guarded rejection by g U: a figure does not conform where it lies outside by more than g U, and conforms otherwise (JCGM 106:2012, 8.3.3). Simple acceptance is g = 0. Counts, statistics of a sampling plan and bounds that carry their own confidence decide alone.
two-levels-for-what-should-48845b6d = Two levels, for what should be zero: a figure farther from zero than the first, in u, must be explained, farther than the second it does not conform.
the-probability-of-conformity-is-316d2a8b = The probability of conformity is the share of a normal distribution about the figure with its u, or of Student's t with its degrees of freedom, that lies inside the limit (JCGM 106:2012, clause 7). What is missing to 100 % is the risk of whoever accepts it.
reported-and-recomputed-4421cd47 = Reported and recomputed
a-rig-commonly-takes-two-1a10a12f = A rig commonly takes two readings, one at the beginning and one at the end, and prints one decimal; here the slope of all readings of the trace is taken, each brought to one temperature. The two differ a little, by method and by rounding, and agree within the tolerance that the specification states (rule R40).
a-rig-knows-no-uncertainty-4eed8823 = A rig knows no uncertainty: it prints pass or fail where this dossier may say undecided.
formula-aa3897fd = Formula
symbols-e9c4c6a6 = Symbols
symbol-f3fb51d1 = symbol
unit-e8b51a07 = unit
where-it-comes-from-7acbc830 = where it comes from
zero-its-uncertainty-is-the-61b6031f = zero; its uncertainty is the contribution { $source } of the specification
constant-43ac60f4 = constant: { $source }
room-of-judged-figures-to-a0a7beb6 = room of judged figures to their limits
figure-a10655d0 = figure { $id }
worked-example-1908e453 = Worked example
standard-uncertainty-50b412e8 = standard uncertainty
sources-and-how-it-was-cfa05ee3 = Sources and how it was checked
in-this-dossier-aa95b797 = In this dossier
and-more-37b54759 = {" "}and { $n } more
methods-e2243e79 = methods
when-it-holds-1b9fc9c8 = When it holds
gives-5d99259a = Gives { $figure } = { $gives }.
compressed-gas-stores-energy-f618541b = Compressed gas stores energy
integrity-testing-is-a-pressure-8628d6e2 = Integrity testing is a pressure test with gas: parts, connectors and hoses that fail can injure or kill. Use a housing, hoses and fittings rated for the pressure, with relief; stay below the lower of housing and element limits; stand clear while pressure rises; vent to zero before opening; never tighten a clamp under pressure.
nitrogen-suffocates-without-warning-d397da62 = Nitrogen suffocates without warning
below-oxygen-an-atmosphere-counts-9cd25134 = Below 19.5 % oxygen an atmosphere counts as short of oxygen. Vent outdoors or to a ventilated place; fit an oxygen monitor in small rooms and pits.
steam-burns-and-condensate-hammers-59e9c0b9 = Steam burns, and condensate hammers
saturated-steam-at-c-stands-38e98dd8 = Saturated steam at 121 °C stands at about 2.05 bar absolute. Drain condensate, warm up slowly, keep the forward pressure difference inside the claim, allow no reverse pressure while hot, avoid vacuum on cooling, cool before use.
hot-water-scalds-218f8063 = Hot water scalds
measure-at-the-far-end-06059c0f = Measure at the far end of the line, not at the heater.
caustic-peracetic-acid-chlorine-51aa899a = Caustic, peracetic acid, chlorine
each-needs-eye-and-skin-d3fe9e31 = Each needs eye and skin protection and its own safety data sheet. Never mix chlorine products with acid or ammonia, nor peracetic acid with caustic or organic liquids; rinse to neutral between agents and prove the rinse.
alcohol-as-wetting-liquid-burns-2288cf83 = Alcohol as wetting liquid burns
mixtures-with-water-give-off-a81d1c5f = Mixtures with water give off flammable vapour at room temperature. No ignition source, earthed equipment, no compressed air through a freshly wetted element: use nitrogen. Results with water and with alcohol are never held against one limit.
challenges-with-organisms-87a8a5c0 = Challenges with organisms
only-in-a-laboratory-equipped-569a923f = Only in a laboratory equipped for the organism; never in a plant that bottles.
food-safety-ceaaf20d = Food safety
rinse-after-every-chemical-step-83ae7596 = Rinse after every chemical step, look for residue before wine or beverage enters, discard first runnings as the site's plan says.
local-law-codes-and-licensed-b6386cdd = Local law, codes and licensed practice come first
pressure-equipment-boilers-chemicals-waste-ad626324 = Pressure equipment, boilers, chemicals, waste water, confined spaces, flammable atmospheres, food law: where this text and a local rule differ, the local rule holds.
this-dossier-is-evidence-not-82faf00d = This dossier is evidence, not a decision
it-replaces-neither-the-release-c7ad511d = It replaces neither the release by a qualified person named by the maker nor the user's own integrity test in the housing at the point of use.
cautions-03e7cf2f = Cautions
none-of-these-replaces-the-296362b4 = None of these replaces the site's own assessment of risk.
is-this-copy-whole-8bd4bd68 = Is this copy whole?
in-the-folder-above-this-e94ef893 = In the folder above this one, manifest-sha256.txt lists every file below data/ with its SHA-256, and tagmanifest-sha256.txt does the same for the files beside it. The SHA-256 of tagmanifest-sha256.txt is the digest of what lies here: of a whole dossier it is the one on the signed paper, and a customer's copy has one of its own, beside that of the signed dossier on the page about the copy.
on-a-machine-with-the-725c4f67 = On a machine with the usual command-line tools: sha256sum -c manifest-sha256.txt, then sha256sum -c tagmanifest-sha256.txt, then sha256sum tagmanifest-sha256.txt. Any reader of the BagIt format (RFC 8493) checks the same, and also finds files that were added.
on-windows-without-any-rights-a277816a = On Windows, without any rights: certutil -hashfile tagmanifest-sha256.txt SHA256 gives the digest; of any other file it gives the number that stands beside its name in the list.
a-signature-ssh-keygen-y-0b58bc65 = A signature: ssh-keygen -Y verify -f allowed_signers -I PERSON -n dossier-approval -s STATEMENT.json.sig < STATEMENT.json, with a file allowed_signers of the keys that you trust. The statements lie in signatures; in a customer's copy those of the maker lie in data/signed-dossier/signatures.
a-line-of-allowed-signers-bcfe11f3 = A line of allowed_signers is PERSON and the public key, such as: P-01 ssh-ed25519 AAAA…; PERSON stands under "person" in the statement. A signature that holds says that the statement is that person's, and nothing of the files: what stands under "digest" in it must be the SHA-256 of tagmanifest-sha256.txt, in a customer's copy of data/signed-dossier/tagmanifest-sha256.txt; what stands under "before", that of the statement before.
with-this-program-sealfolio-verify-7b46f1c8 = With this program: sealfolio verify FOLDER compares every file, lists all that is changed, missing or extra, and computes every figure again from the sealed records.
what-a-page-cannot-prove-a4e41254 = What a page cannot prove
a-page-cannot-prove-itself-20069289 = A page cannot prove itself: whoever changes the data can change the page. The anchor is the digest on signed paper, or a signature that you check with your own tools.
nobody-signs-the-pages-of-def720bf = Nobody signs the pages of a customer's copy. They hold because sealfolio verify makes them again from the records, byte for byte; without the program, digests and signatures vouch for its records alone.
a-copy-cannot-know-that-171db840 = A copy cannot know that it is old. Ask the issuer for the number of the current revision.
check-this-copy-14442e1a = Check this copy
how-to-show-that-nothing-49e78509 = How to show that nothing was changed, lost or added.

## src/page/mod.rs

steam-in-place-e61e4a61 = steam in place
hot-water-9b2665bb = hot water
back-flush-ab8b0d48 = back flush
caustic-198cf967 = caustic
cold-rinse-1b8f0d4e = cold rinse
chemical-regeneration-7a74385c = chemical regeneration
nitrogen-214c6dc3 = nitrogen
air-33324a17 = air
water-49c69a10 = water
after-steam-24a582d1 = after steam
before-run-1fc9623b = before run
end-of-run-bd88d152 = end of run
quality-manager-408c7bc9 = quality manager
quality-reviewer-0d74a91d = quality reviewer
validation-engineer-acd84b9b = validation engineer
o-ring-5f594dd0 = o ring

## src/page/open.rs

findings-0823b500 = Findings: { $severity }
none-e2e3244f = None.
figures-that-did-not-pass-3d932bc0 = Figures that did not pass, failed tests that were repeated included
decides-20536a16 = decides
yes-of-which-is-not-2f12f671 = yes, of { $id }, which is not released
no-excluded-by-1fe6aae8 = no, excluded by { $id }
no-another-test-does-db35d5a0 = no, another test does
figures-that-did-not-pass-6f954004 = Figures that did not pass
open-points-d999b3e0 = Open points
what-a-person-must-look-74a9f412 = What a person must look at, the heaviest first, with the next step where one is left.
figures-that-did-not-pass-a6a2cb6e = Figures that did not pass: { $all }. Of elements that are not released: { $unreleased }; followed by another test that decides: { $repeated }; left out by a decided deviation: { $excluded }; that decide about what is released: { $decide }.

## src/page/paged.rs

page-by-page-d4ae8de2 = Page by page

## src/page/people.rs

persons-by-09d158ff = Persons, by { $id }
may-d6a2e186 = may
until-bab5214f = until
recorded-ca6784bd = recorded
who-may-do-what-and-b20b929d = Who may do what, and who did what
signatures-named-in-release-statements-be3034a2 = Signatures named in release statements, in order of time
statement-fb8d6d16 = statement
none-signed-by-hand-on-f23b4c30 = none: signed by hand on the certificate, or in the seal
signature-policy-91f9ed89 = Signature policy
functions-454a414e = functions
not-the-same-person-as-63e0226e = not the same person as
who-must-sign-bc2d8941 = Who must sign
a-name-in-a-record-30f02389 = A name in a record is no electronic signature and identifies nobody.
people-8390060e = People
who-may-do-what-who-a5889511 = Who may do what, who did what, and who signed.

## src/page/product.rs

layers-from-upstream-to-downstream-21c2e757 = Layers, from upstream to downstream
layer-07a640f6 = layer
thickness-6d0fa515 = thickness
lots-or-types-allowed-a69ab8fb = lots or types allowed
layers-of-71b83a13 = Layers of { $product_code }
dimensions-at-fd7e5c97 = Dimensions at { $reference_temperature }
part-7c783614 = part
dimension-670b6ae3 = dimension
size-23a0d95c = size
tolerance-ab12f528 = tolerance
dimensions-clearances-and-strengths-of-78eee404 = Dimensions, clearances and strengths of { $product_code }
materials-d3ccdb89 = Materials
expansion-per-kelvin-ff730eba = expansion per kelvin
softens-at-04cc922c = softens at
source-1bcf29d8 = source
to-7924bc34 = { $expansion_low } to { $expansion_high }
materials-of-8fd79cf9 = Materials of { $product_code }
when-has-served-98c54a7d = When { $product_code } has served
the-record-does-not-say-28306050 = The record does not say how the element comes apart or where its materials go.
separation-of-materials-d0f77968 = Separation of materials
as-declared-0ddb0c55 = as declared
rinse-to-neutral-before-an-2d30cfa9 = Rinse to neutral before an element is opened or handed on; local rules on waste come first.
no-layer-stack-and-no-21d6dc14 = No layer_stack and no element_geometry is in this folder.
the-product-6c2b4ceb = The product
what-an-element-consists-of-d6349c44 = What an element consists of, what fits into what when hot and when cold, and what it bears.

## src/page/requirements.rs

requirements-4e26fc61 = Requirements
requirement-d022ae28 = requirement
asked-by-797d25a8 = asked by
holds-5a262a91 = holds
evidence-f800be44 = Evidence
what-it-needs-14c39c7d = what it needs
what-is-here-85e8b491 = what is here
records-of-kind-85bae0d6 = records of kind { $kind }
record-cfba075f = record { $id }
that-decide-about-what-is-ee76d0c3 = { $count } that decide about what is released
that-decide-about-what-is-ee09e397 = { $count } that decide about what is released, { $n } left out by a deviation
figure-7ebe2b6a = figure { $name }
figure-which-is-not-known-5ec435e6 = figure { $figure }, which is not known
the-least-of-them-bbd3a803 = { $words }; the least of them { $id }
reported-only-98088708 = reported only
chapter-41fb7617 = chapter { $chapter }
chapter-29f4e852 = chapter
missing-b6f40207 = missing
the-evidence-is-here-and-6bc24a0b = The evidence is here, and it holds.
not-met-2725a1b1 = Not met: { $flaws }.
record-dca3aea7 = <p><a href="{ $record }">record</a></p>
no-requirement-is-recorded-what-fae8afcc = No requirement is recorded. What a customer or a regulation asks for is then shown by nothing but the rules.
what-was-asked-for-where-9aadda47 = What was asked for, where the evidence is, and whether it holds.
present-1e801cec = present
how-many-cycles-the-data-5142fdbb = how many cycles the data support
how-well-a-test-repeats-d1c190fc = how well a test repeats
water-flow-new-and-after-771fb8fc = water flow, new and after regeneration
clearances-when-hot-and-cold-cea97982 = clearances when hot and cold, strength of core and cage
the-layers-of-the-pack-39ee3e29 = the layers of the pack
retention-of-organisms-63cfe9cb = retention of organisms
what-happened-to-elements-in-f6769e46 = what happened to elements in service
what-customers-and-regulations-ask-7f7fbfac = what customers and regulations ask for
who-must-sign-what-13553599 = who must sign what
rules-that-could-not-look-3c252c50 = Rules that could not look
demands-6d8f0db7 = demands
there-were-no-to-look-05403f55 = there were no { $things } to look at
kinds-of-record-of-which-ff3e8502 = Kinds of record of which none is here
what-it-would-show-61908206 = what it would show
figures-that-have-no-number-046df553 = Figures that have no number
claims-that-rest-on-a-3a333c82 = Claims that rest on a report alone
words-that-no-record-supports-5f574755 = Words that no record supports
no-word-on-label-or-4d8bdc23 = No word on label or certificate is one of those that rule R64 looks for: sterile, sterilising grade, absolute, complete retention and their like, in English. What else they promise, a person must read.
these-words-stand-on-a-992a871a = These words stand on a label or a certificate and nothing here supports them.
what-a-folder-of-records-f6220037 = What a folder of records cannot show
that-a-record-was-never-81694830 = That a record was never made: run numbers without gaps and the metres of the roll are what speaks against it.
that-a-person-is-who-dae30a9d = That a person is who they say: a name in a record is no signature.
retention-in-any-one-wine-a1f3b1eb = Retention in any one wine: it is shown with a test organism, on flat membrane unless a record says otherwise.
extractables-and-migration-after-repeated-f96fb24e = Extractables, and migration after repeated steaming, unless a chapter or an attachment reports them.
what-the-maker-says-is-d9ee5b8c = What the maker says is not shown
no-chapter-speaks-of-it-a985eac6 = No chapter speaks of it.
what-is-not-in-this-477d32b4 = What is not in this dossier
said-by-the-program-from-e194f233 = Said by the program from what it did not find, so that silence is not taken for a pass.
every-rule-looked-at-something-bb411d71 = Every rule looked at something.
kinds-of-record-e90e6e92 = Kinds of record
every-kind-of-record-is-f3d74d58 = Every kind of record is here.
figures-without-a-number-cff503a6 = Figures without a number
every-figure-has-a-number-ddf3baaa = Every figure has a number.
claims-without-data-9cd8add0 = Claims without data
every-claim-of-cycles-has-6149af44 = Every claim of cycles has a study.

## src/page/rolls.rs

no-material-lot-record-describes-0b6fe2e3 = No material_lot record describes it.
supplier-lot-of-received-9e0aa894 = { $material_description }; supplier lot { $supplier_lot } of { $supplier_name }, received { $time }.
declarations-for-food-contact-a1790f85 = Declarations for food contact
regulation-9d2eb051 = regulation
issued-6b6fe4ac = issued
covers-03beca89 = covers
declarations-24735060 = Declarations
flat-membrane-and-slit-width-b14e7b9c = Flat membrane and slit width
where-every-part-of-the-7ead728d = Where every part of the roll went
to-7385f2d1 = { $from } to { $to }
in-no-assembly-4f1ef757 = in no assembly
where-it-went-e40488ed = Where it went
roll-d91830d9 = Roll { $id }
challenges-of-the-supplier-lot-fc6e4f52 = Challenges of the supplier lot
no-challenge-of-this-supplier-00240588 = No challenge of this supplier lot is shown in this copy; the whole dossier was asked for one (rule R67).
no-roll-of-this-supplier-46e8622f = No roll of this supplier lot was challenged.

## src/page/sampling.rs

every-unit-is-looked-at-f3084301 = every unit is looked at: no unit escapes for not being sampled
it-names-neither-an-acceptance-5dc6ca01 = it names neither an acceptance number nor a constant: it decides nothing
accept-with-at-most-failures-19ea627e = accept with at most { $c } failures of { $n }
accept-when-the-mean-of-9cff26ec = accept when the mean of { $n } lies at least { $k } of their standard deviations from the limit
plans-88c56053 = Plans
no-specification-lays-down-a-3ca6b301 = No specification lays down a sampling plan.
sampling-a15fa5b0 = Sampling
what-each-plan-lets-through-e93bb3e6 = What each plan lets through, what was sampled by it, and what looking at every unit proves.
nothing-was-sampled-by-it-d488b037 = Nothing was sampled by it here.
almost-always-d5f51014 = almost always (95 %)
half-the-time-06462f8c = half the time
still-in-one-of-ten-4cd607b8 = still in one of ten times
the-plan-rejects-nothing-it-71ba5cfd = The plan rejects nothing: it decides nothing.
the-plan-is-to-it-31b4ccc2 = The plan is to { $curved }. It accepts a process almost always (95 %) when { $good } of its units fail, and still in one of ten times when { $bad } fail.
acceptable-quality-level-5ed32836 = acceptable quality level
limiting-quality-ee78030d = limiting quality
failing-accepted-9051ef0a = { $share } failing: accepted { $words }
accepted-with-probability-5bcdc4ad = { $name } { $level }: accepted with probability { $accepted }
at-the-of-the-plan-5a6f70ae = at the { $name } of { $level } the plan accepts with probability { $accepted }
operating-characteristic-of-335b148d = Operating characteristic of { $id }
share-of-failing-units-across-dd05b1cc = { $words } Share of failing units across, probability of acceptance up.
failing-units-in-the-process-244222e0 = failing units in the process, %
probability-of-acceptance-45aff68c = probability of acceptance
binomial-the-sample-is-a-db96624e = Binomial: the sample is a part of a process (type B). Each unit fails or not, whatever the distribution.
non-central-t-s-method-52a99756 = Non-central t, s-method with one limit (ISO 3951-1, from memory). It holds for normal values of one population; a coupon force that is not normal voids it.
units-with-at-most-failures-355b688c = { $n } units with at most { $c } failures
units-with-a-constant-between-c38bb816 = { $n } units with a constant between { $least } and { $most }
the-smallest-plan-that-accepts-893bd011 = the smallest plan that accepts the one 95 times of 100 and the other at most 10 times takes { $plan }
sampled-by-it-7eec3ecf = Sampled by it
inspection-b2785693 = inspection
seal-run-8e3e47f5 = seal run
coupons-that-count-a62e6762 = coupons that count
quality-statistic-38427344 = quality statistic
no-station-named-97219ac3 = no station named
seals-that-were-looked-at-f8b20968 = Seals that were looked at
no-seal-was-looked-at-bc3eb70e = No seal was looked at, as far as is recorded.
failing-seals-by-kind-and-07534c71 = Failing seals by kind and station
station-aed72c13 = station
looked-at-08fc90b8 = looked at
share-that-may-fail-one-dbc6a962 = share that may fail (95 %, one-sided)
at-most-89e3e7e5 = at most { $bound }
least-is-known-of-at-92f7b9ea = {" "}Least is known of { $kind } at { $station }: up to { $bound } may fail.
of-seals-failed-when-looked-d99bd98f = { $failed } of { $seen } seals failed when looked at.{ $least_known } For all kinds in this mixture together the bound is { $seen2 }.
bound-of-clopper-and-pearson-d64dfb70 = Bound of Clopper and Pearson: no distribution of a measured value is assumed, but that seals fail independently and all with one probability. A look finds what can be seen: what it misses is the business of the tests with gas.
of-failed-4ff27772 = { $id }: { $failed } of { $seen } failed
fewer-than-five-failures-are-4315d5ff = {" "}Fewer than five failures are expected in a run: the limits are rough, and a single failure may lie beyond them.
share-of-seals-that-failed-9d3856fe = Share of seals that failed, run by run
share-of-seals-that-failed-bfa9971b = Share of seals that failed, run by run, with the upper limit of each.{ $caution }
inspection-in-order-of-time-e1665810 = inspection in order of time
failed-9fa73c27 = failed, %
upper-limit-9926cb14 = upper limit

## src/page/service.rs

where-it-was-fitted-32bd0e30 = Where it was fitted
log-3f515151 = log
housing-351cd8c1 = housing { $text }
position-80c9552f = position { $text }
still-there-b62a9a1b = still there
before-you-begin-5dee5e30 = Before you begin
gas-under-pressure-kills-vent-0296070a = Gas under pressure kills: vent to zero before opening, never tighten a clamp under pressure, do not exceed the lower of the two pressure ratings, that of the housing and that of the element.
nitrogen-suffocates-vent-outdoors-and-aa5ac43c = Nitrogen suffocates: vent outdoors, and watch the oxygen in closed rooms.
steam-and-hot-water-burn-596108a9 = Steam and hot water burn: drain condensate, warm slowly, no reverse pressure while hot, cool before use.
chemicals-eye-and-skin-protection-da0716e3 = Chemicals: eye and skin protection, never mix, rinse to neutral and prove it.
discard-first-runnings-local-rules-3cfad7f2 = Discard first runnings. Local rules and licensed practice come first.
where-it-is-fitted-8be70445 = Where it is fitted
nothing-is-reported-line-housing-c8d2138c = Nothing is reported: line ________  housing ________  position ____  fitted on ____________
reported-by-the-customer-the-97cef4e4 = Reported by the customer; the maker has verified none of it.
to-bring-results-back-bfdc1f89 = To bring results back
note-them-here-and-send-7d9e8cf0 = Note them here and send the sheet to the maker; a record of kind cycle_log holds the same.
the-sheet-of-all-cautions-b6ab3bb6 = <p><a href="{ $id }">the sheet of { $id2 }</a> · <a href="{ $html }">all cautions</a></p>
m-471fd8b9 = { $nominal_length }, { $modules }.{" "}
not-known-9e7f44f5 = not known
lot-6cfc0524 = { $product_code }, { $nominal_rating }, lot { $lot }.{" "}
in-service-4438ad42 = { $id } in service
assembly-ffe08794 = assembly { $id }
used-6a786eb0 = used
traces-here-by-word-a21c00f9 = traces: here + by word
left-124aec70 = left
left-of-counted-with-a-d730b700 = { $treatment }: { $left } left of { $cycles_claimed }; { $used } counted: { $here } with a whole trace in this dossier, { $said } carried forward with traces by the plant's word, { $rest } with a gap or by word only.
it-is-reported-in-more-140136b0 = It is reported in more than one log; a log that carries the earlier ones forward stands for them, and all others add up, which is the safe side.
longest-time-in-service-36ee1875 = {" "}Longest time in service: { $age }.
never-91e8ad51 = Never: { $never }.
no-claim-of-cycles-is-3dd68dea = No claim of cycles is recorded for this product.
date-d472dc59 = date
hold-min-f85ae668 = hold, min
highest-temperature-c-e2658bb0 = highest temperature, °C
pressure-difference-mbar-f9785b41 = pressure difference, mbar
trace-file-7a94a38c = trace file
next-test-for-this-element-65005a62 = Next test, for this element alone
test-pressure-gauge-2dc2fb73 = test pressure, gauge
gas-49172362 = gas
liquid-5e4daa9d = liquid
at-most-aaff9dad = at most { $high }
at-least-193792ad = at least { $low }
at-most-673a22e7 = at most
at-least-4b642909 = at least
next-integrity-test-242476a5 = Next integrity test
the-maker-measured-on-this-d71b9664 = The maker measured { $own } on this element. A test of it alone that reads up to its limit of { $limit } hides a leak of up to { $own2 }.
in-a-housing-of-n-06c5e50b = In a housing of n such elements one test against n times the limit hides up to n times that: with 5 elements { $own }. Such a test cannot say which element leaks; single tests can.
pressures-are-gauge-pressures-a-e4194706 = Pressures are gauge pressures; a flow of gas is counted at { $temperature } and { $pressure } absolute.
test-before-and-after-each-9362978d = Test before and after each run. Use the pressure, gas and liquid named; results with another gas or liquid are not held against this limit.
if-a-test-fails-stop-8dd0a229 = If a test fails: stop, and hold what was filtered since the last passed test. Look at housing, seals and connections, wet again as above, test once more, keep both results; test elements one by one. One that fails again is taken out, and the maker is told. What becomes of the wine is decided by a qualified person of the plant.
flush-b2f3fe9d = flush
settle-d94c387a = settle
measure-10bf34df = measure
as-the-maker-tests-667b326b = As the maker tests: { $parts }.
bubble-point-d3c49760 = Bubble point: { $criterion }.
the-maker-pressed-it-to-d4c24f08 = The maker pressed it to { $most } in its tests; these records state no pressure rating of the element: ask the maker before you go higher.
tests-and-runs-in-order-8e1fb1e0 = Tests and runs in order of time
result-0a377624 = result
test-5b4ef70e = test, { $quantity }, { $stage }
stage-not-stated-6cdeb54b = stage not stated
passed-513cb799 = passed
no-verdict-3ee46eef = no verdict
run-f7b53aff = run { $run }
was-every-run-between-two-3b4ccfef = Was every run between two good tests?
no-test-and-no-run-89f71430 = No test and no run in service is reported.
yes-as-far-as-runs-f7a8d2f3 = Yes, as far as runs and tests are reported: { $runs }, { $tested }.
no-523d6bdc = No.
all-that-was-filtered-between-c9ad43b0 = All that was filtered between the last passed test and a failed one is suspect. Whether it is held is the customer's decision.
at-most-a90da51c = at most { $most }
a-cycle-6a42dd3f = { $time } a cycle
forward-at-most-bae75c7f = forward at most { $most }
reverse-at-most-cca0b0da = reverse at most { $most }

## src/page/sheets.rs

lot-56ee0953 = lot { $lot }
roll-0a9bf083 = roll { $roll }
built-9b6d9c1a = { $nominal_length }, { $modules }, built { $day }. { $id }.
both-test-stages-side-by-0adb1427 = Both test stages side by side: each module alone, and the whole
position-934f4e0a = position
tests-5b22cf22 = tests
whole-e55b9774 = whole
over-the-sum-4b84132f = over the sum
genealogy-and-tests-7ef0c94e = Genealogy and tests
this-assembly-or-a-module-236073cb = This assembly, or a module in it, was tested again; every test is shown below, passed or not.
tests-of-the-assembly-2fe8deb0 = Tests of the assembly
the-sheet-for-the-plant-7ee25621 = <p><a href="{ $id }">the sheet for the plant that uses it</a></p>
modules-each-tested-alone-fb8ed387 = Modules, each tested alone
in-service-67072481 = In service
cycles-by-treatment-reported-by-062d777a = Cycles by treatment, reported by the customer
with-a-whole-trace-carried-b7e31975 = with a whole trace, carried forward included
left-of-the-claim-988835fe = left of the claim
fitted-at-the-maker-has-4eb78afb = Fitted { $time } at { $site }. The maker has verified none of these counts.
findings-about-this-assembly-ad5c49be = Findings about this assembly
assembly-a1d2c0b4 = Assembly { $id }
joins-and-fittings-30fcbf8d = Joins and fittings
join-de21f483 = join { $joint }
adapter-fd7759a4 = adapter, { $r }
ring-turns-freely-0a7bc1f4 = ring turns freely
ring-does-not-turn-fc03d864 = ring does not turn
stainless-ring-kept-apart-from-400c6650 = stainless ring, kept apart from the plastic
radial-clearance-e4a0f2d2 = radial clearance { $play }
end-piece-3a7095d8 = end piece, { $r }
drains-017f96de = drains
does-not-drain-5b334a83 = does not drain
o-rings-3f0db9be = { $quantity } o-rings, { $material }
axes-at-join-964f4e81 = axes at join { $joint }
apart-eb636561 = { $apart } apart
overall-length-1f8412f6 = Overall length { $length }
out-of-straight-by-ce498f1e = , out of straight by { $off }
build-record-3c810d60 = <p><a href="{ $record }">build record { $id }</a></p>
records-that-speak-of-the-05a77750 = Records that speak of the assembly and its modules
material-lots-5101fa84 = material lots
records-behind-it-64e45b54 = Records behind it
certificate-828355f1 = <p><a href="{ $page }">certificate</a></p>
revision-of-b81f0134 = { $happened }; revision { $revision } of { $day }

## src/page/source.rs

sha-52f1c73f = <p>SHA-256 <code>{ $digest }</code></p>
as-read-byte-for-byte-3cf33643 = As read, byte for byte, with numbered lines. Beside a line stand the figures that used it.
as-line-c6e5366d = as line { $first }
and-more-49310161 = and { $rest } more
table-d70ceb7f = Table

## src/page/standing.rs

proposed-for-release-not-released-b0959a31 = proposed for release, not released
in-the-release-62b17968 = in the release
not-released-70025bf1 = not released ({ $id })
not-in-the-release-39334ba3 = not in the release

## src/page/studies.rs

all-results-are-equal-the-63511ce7 = { $id }: all results are equal: the resolution of the instrument hides their spread.
no-analysis-of-variance-85ed20b3 = { $id }: no analysis of variance: { $why }.
is-taken-into-the-repeats-255912a2 = is taken into the repeats, p being above 0.25
is-kept-as-a-part-426d0e17 = is kept as a part of its own, p being below 0.25
it-tells-groups-of-such-233a9932 = it tells { $n } groups of such elements apart (5 and more are usual; MSA manual, from memory)
it-has-no-spread-of-58ed0991 = it has no spread of its own
operators-know-the-spread-between-3d0bdd4a = {" "}{ $operators } operators know the spread between them badly.
elements-by-operators-the-measurement-154ef33a = { $id }, { $quantity }: { $elements } elements by { $operators } operators. The measurement takes { $found } of the spread of the study (variance: { $found2 }); { $told }. The interaction of operators with elements { $pooled } (F = { $interaction }, p = { $interaction2 }).{ $found3 }{ $weak }
no-limit-is-laid-down-7d83d565 = {" "}No limit is laid down for it.
six-standard-deviations-of-the-7da355ce = {" "}Six standard deviations of the measurement take { $share } % of the tolerance.
the-mean-of-the-study-cad6742f = {" "}The mean of the study lies { $sd } standard deviations of the measurement from the limit.

## src/page/tested.rs

every-test-of-the-assembly-14ec2f9b = Every test of the assembly and of its modules, in order; failed ones stand like passed ones
test-afd071e5 = test
rig-44129aa9 = rig
without-a-gap-032c369c = without a gap
with-one-gap-of-min-73b8c686 = with one gap of { $longest } min: nothing was recorded there and nothing is drawn
with-gaps-the-longest-min-6352e2d9 = with { $n } gaps, the longest { $longest } min: nothing was recorded there and nothing is drawn
line-c-6966361b = line { $lines }: { $what } °C
readings-of-9f9abd79 = { $count } readings of { $file }, { $words }.
time-min-29c2b984 = time, min
temperature-c-8b9e3b98 = temperature, °C
line-a9a907cd = line { $lines }: { $y }
of-69af3fe1 = { $flow } of { $id }
pressure-ramp-154423ea = Pressure ramp
pressure-decay-5df2604c = Pressure decay
readings-of-each-point-leads-a807bb42 = { $count } readings of { $file }; each point leads to its line.
gauge-pressure-83938746 = gauge pressure, { $pressure }
time-s-8aad4f81 = time, s
gas-flow-1b2a82ed = gas flow, { $y }
gauge-pressure-3e84f816 = gauge pressure, { $y }
as-through-one-hole-m-c957cdd6 = , as through one hole { $wide } µm wide,
at-the-joins-something-is-eb6f550e = At the joins something is seen: { $found } over the sum of the modules lies above the decision threshold of { $threshold } (1.645 u without a leak).
the-assembly-passes-less-than-5454b537 = The assembly passes less than its modules did: { $found }, further below zero than the decision threshold of { $threshold } (1.645 u without a leak). The tests do not fit each other, and a leak of that size could be hidden.
at-the-joins-no-leak-134c5fe8 = At the joins no leak is seen: { $found } over the sum of the modules lies below the decision threshold of { $threshold } (1.645 u without a leak).
a-leak-of-would-be-cbca7665 = A leak of { $detection }{ $wide } would be seen by this test with a probability of 95 %; a smaller one may be there (ISO 11929-1 scheme, Currie 1968; from memory).

## src/page/trend/capability.rs

capability-a1c8bc47 = Capability
no-limit-is-laid-down-38aa5361 = No limit is laid down for it: there is nothing to be capable of.
values-too-few-are-needed-d61933b9 = { $n } values: too few; { $what } are needed.
elements-of-which-any-test-08337771 = elements of which any test, the first or a later one, was beyond the limit
of-67e746c4 = { $beyond } of { $elements }
at-most-of-the-population-4ba84ac8 = at most { $bound } of the population
clopper-and-pearson-one-sided-febddcc5 = Clopper and Pearson, one-sided; no distribution assumed
what-holds-without-any-distribution-86deaedb = {" "}What holds without any distribution: with 95 % confidence at least { $share } of the population lie { $series }.
no-index-is-given-e3d147d9 = No index is given: { $why }.{ $free }
of-the-population-lie-16fb4f95 = { $percent } of the population lie
tolerance-interval-of-normal-values-b045b97b = tolerance interval of normal values, 95 % confidence (e-Handbook 7.2.6.3)
share-of-the-population-bbb9539c = share of the population { $series }
at-least-7ac2ee92 = at least { $share }
order-statistics-no-distribution-assumed-389e3043 = order statistics, no distribution assumed (Wilks 1941)
numbers-of-capability-67fafd50 = Numbers of capability
not-below-the-smallest-value-79db20bc = not below the smallest value found
not-above-the-largest-value-a7675e21 = not above the largest value found
between-the-smallest-and-the-064646c2 = between the smallest and the largest value found
pp-6100546d = Pp
chi-squared-exact-for-normal-269153ba = chi-squared, exact for normal values (ISO 22514-2, from memory)
ppk-b9844572 = Ppk
to-one-sided-at-least-9a2b1cb9 = { $nearest } to { $nearest2 }; one-sided at least { $proven }
two-sided-after-bissell-from-c1222ca5 = two-sided after Bissell 1990 (from memory); one-sided exact by the non-central t
with-values-the-bound-is-b7ff763d = {" "}With { $n } values the bound is what counts, not the index (30 and more are usual; common practice, no source).
the-values-are-not-shown-e88b09b4 = {" "}The values are not shown to be stable: the index describes what was made, and promises nothing.
the-limit-of-lies-standard-f93615f2 = The limit of { $limit } lies { $nearest } standard deviations from the mean (Ppk { $nearest2 }); with 95 % confidence Ppk is at least { $proven }.{ $few }{ $unstable }
normal-e68b9c52 = normal
limit-2f416f2b = limit { $limit }
values-in-classes-66363a55 = { $series }: values in classes
the-values-are-listed-in-a1af81f4 = { $words } The values are listed in the table at the end of the page.
values-34474c3b = values
normal-probability-plot-the-values-45ee6040 = Normal probability plot: the values bend away from the line of a normal distribution.
normal-probability-plot-values-of-f57d2035 = Normal probability plot: values of a normal distribution lie along the line.
normal-probability-plot-fb6e889f = { $series }: normal probability plot
standard-deviations-of-a-normal-003ad74d = standard deviations of a normal distribution

## src/page/trend/control.rs

drawn-at-the-edge-of-2e2980ec = , drawn at the edge of the picture
measured-again-later-0dababfb = , measured again later
a-repeated-test-that-was-504091a4 = , a repeated test that was not accepted
see-17bd962b = , see { $deviation }
calibrated-8f113314 = { $station } calibrated
this-dossier-54fd1e44 = this dossier
values-too-few-for-control-362e7199 = { $n } values: too few for control limits, which need { $what } that differ.
centre-e4bb6ec6 = centre
upper-0a8c6a47 = upper
lower-b51d04ba = lower
the-limit-of-lies-outside-ea44dfc4 = {" "}The limit of { $limit } lies outside the picture.
mean-9ede2954 = mean
student-s-t-nist-sematech-0a8a05c5 = Student's t (NIST/SEMATECH e-Handbook 1.3.5.2)
standard-deviation-of-all-8df2ab9f = standard deviation of all
none-holds-not-normal-e07d7243 = none holds: not normal
chi-squared-for-normal-values-d82121d5 = chi-squared, for normal values (e-Handbook 1.3.5.8)
mean-moving-range-its-upper-9e151065 = mean moving range; its upper limit
moving-ranges-of-two-e-1aaea954 = moving ranges of two (e-Handbook 6.3.2.2)
control-limits-of-these-values-6f4f60a2 = control limits of these values
mean-mean-moving-range-d-34bbe0c4 = mean ± 3 × mean moving range / d₂, d₂ = 2/√π
control-limits-laid-down-60b543f0 = control limits laid down
phase-earlier-data-as-the-fa634173 = phase 2: earlier data, as the specification lays them down
numbers-of-the-control-chart-a2c65c6c = Numbers of the control chart
control-chart-9464a23e = Control chart
values-in-the-order-of-d646af99 = Values in the order of production
limits-are-16702213 = <p>Limits are { $basis }: <a href="{ $at }">{ $at2 }</a>.</p>
each-point-leads-to-its-0ba5ed2d = { $words } Each point leads to its figure; the table at the end of the page lists the same values.
place-in-the-order-of-291e08bc = place in the order of production
frozen-control-limits-347ba932 = frozen control limits
control-limits-provisional-with-fewer-465b1108 = control limits, provisional with fewer than 20 values
all-values-lie-within-the-eaf67d72 = All { $n } values lie within the { $kind }
one-of-values-lies-beyond-89590e74 = One of { $n } values lies beyond the { $kind }: { $beyond }
of-values-lie-beyond-the-d24b6303 = { $m } of { $n } values lie beyond the { $kind }: { $names }
times-first-ending-at-b5998143 = ; { $pattern } ({ $found } times, first ending at { $first })
drift-and-shifts-f0d8bdaa = Drift and shifts
values-too-few-or-all-491cafe8 = { $n } values: too few, or all equal; { $what } that differ are needed.
no-steady-rise-or-fall-774c5398 = No steady rise or fall stands out from chance
the-values-from-one-to-e952851d = The values { $slope } from one to the next by { $slope2 } ({ $bounds } to { $bounds2 }): { $slope3 } over the { $n } values
rise-e52b80e0 = rise
fall-f85a0760 = fall
no-single-shift-stands-out-c8974633 = no single shift stands out
the-level-changes-most-at-55366c4c = the level changes most at { $first }, from { $means } to { $means2 }
slope-from-one-to-the-06cb892b = slope from one to the next
to-3c3d6f4e = { $bounds } to { $bounds2 }
median-of-the-slopes-of-8beabf50 = median of the slopes of all pairs (Theil and Sen)
rise-or-fall-by-chance-6a5f2c2d = rise or fall by chance
signs-of-all-pairs-mann-a0ba94d9 = signs of all pairs (Mann and Kendall)
shift-by-chance-35642ab8 = shift by chance
ranks-pettitt-a6fac227 = ranks (Pettitt 1979)
correlation-of-neighbours-faaea778 = correlation of neighbours
is-chance-9a1bbb7a = ±{ $what } is chance
lag-autocorrelation-958c23c5 = lag 1 autocorrelation
first-at-250e8072 = { $count }, first at { $of }
weighted-means-beyond-their-limits-2faecc5f = weighted means beyond their limits
weight-limits-at-e-handbook-3f7dd30d = weight 0.2, limits at 3 (e-Handbook 6.3.2.4), values clipped at the control limits: slow drift
cumulative-sums-above-their-limit-56a8df65 = cumulative sums above their limit, without a new start
slack-limit-e-handbook-values-962eb937 = slack 0.5, limit 5 (e-Handbook 6.3.2.3), values clipped at the control limits: small lasting shifts
rise-fall-and-shift-were-d29f31ac = {" "}Rise, fall and shift were looked for in means of { $n } neighbours.
numbers-of-the-drift-128321de = Numbers of the drift

## src/page/trend/groups.rs

by-roll-lot-station-operator-70734672 = By roll, lot, station, operator
all-values-come-from-one-7542e4fd = All values come from one of each: there is nothing to compare.
groups-f57f458d = Groups
group-5fb91e8c = group
bounds-of-the-mean-b266990d = bounds of the mean (95 %)
standard-deviation-590a7163 = standard deviation
one-value-f665a662 = one value
not-compared-35244294 = { $by }: not compared, { $why }.
hardly-determined-by-so-few-d4d9587f = , hardly determined by so few groups
of-the-variance-lies-between-4de4488e = {" "}{ $all } of the variance lies between them{ $weak }.
lowest-mean-highest-603f50c6 = {" "}Lowest mean { $low } ({ $name }), highest { $high } ({ $name2 }).
a-group-has-fewer-than-ff7e7754 = {" "}A group has fewer than five values: the probability is rough.
the-groups-differ-by-more-17477607 = the groups differ by more than chance
no-difference-stands-out-from-11db8590 = no difference stands out from chance, which does not prove that there is none
method-65d1d090 = { $by }: { $said } ({ $p }).{ $widest }{ $split } Method: { $how }.{ $rough }
by-a1d9ebb0 = { $name } by { $by }
strokes-mean-and-its-bounds-ff729005 = { $words } Strokes: mean and its 95 % bounds.
by-each-point-a-value-87ffa4c2 = { $name } by { $by }: each point a value; strokes are the mean and its 95 % bounds.

## src/page/trend/mod.rs

trends-42b665b9 = trends
bounds-bd106b68 = bounds (95 %)
what-stands-behind-these-numbers-3f9d7955 = What stands behind these numbers
with-the-explained-ones-the-d6bc50cb = {" "}With the explained ones the mean is { $mean } and the standard deviation { $sd }.
values-are-shown-beside-limits-62f25158 = { $count } values are shown, beside limits of control that were laid down before.
values-are-shown-and-set-006db915 = { $count } values are shown and { $values } set the limits of control.
values-are-shown-too-few-c5d69c3a = { $count } values are shown, too few to set limits of control.
open-circles-stand-aside-measured-5f2df4dd = Open circles stand aside. Measured again, the later test counting: { $repeated }. Repeated tests that were not accepted: { $refused }. Values that do not pass and whose cause a deviation about that very test knows: { $explained }; these set no limits of control, and do count for capability, shares and tolerance. What was beyond the limit in any test of an element counts as beyond it. One far from the others is drawn at the edge of the picture.{ $with }
order-when-the-pack-was-ed65b2bc = Order: when the pack was pleated, and its place in the pleating record.
order-when-the-assembly-was-9508efba = Order: when the assembly was joined.
order-when-it-was-tested-4acaf503 = Order: when it was tested; nothing here says when it was made.
nothing-speaks-against-a-normal-ecc8c361 = Nothing speaks against a normal distribution (Anderson and Darling, { $p }); that is no proof of one.
the-values-do-not-look-e35dbc06 = The values do not look normal (Anderson and Darling, { $p }): capability indices and normal tolerance limits are left out, and statements without a distribution stand in their place. Control limits of individual values are then approximate.
too-few-values-or-all-46bdc8d8 = Too few values, or all equal: whether they are normal cannot be said with fewer than { $what }.
neighbours-depend-on-each-other-557fbc3b = Neighbours depend on each other (r = { $r }): limits from moving ranges are too { $r2 }. Runs were not looked for, because they are no surprise then; a lasting shift makes neighbours alike too, and is looked for above.
narrow-e6a879fa = narrow
wide-f723cdea = wide
neighbours-do-not-depend-on-aa1890f8 = Neighbours do not depend on each other beyond chance.
stands-apart-from-the-others-9b203058 = { $of } stands apart from the others (Grubbs, { $p }). Nothing is left out for that: leaving out needs a recorded cause.
looked-for-each-added-pattern-0b9408a2 = Looked for: { $patterns }. Each added pattern raises the rate of false alarms.
lot-or-roll-6991cc00 = lot or roll
remark-f44fe491 = remark
measured-again-the-later-test-8ea7072f = measured again; the later test counts
repeated-test-not-accepted-74cb8007 = repeated test, not accepted
deviation-a969926b = deviation { $deviation }
beyond-control-limits-b69c7a75 = beyond control limits
values-8d4d225b = Values
the-last-values-older-ones-642bfefb = The last { $what } values; { $n } older ones take part and are not listed here. They stand on the sheets of their elements.

## src/page/trend/subgroups.rs

readings-within-each-511ed9c0 = Readings within each
all-readings-within-each-are-8c49bcf3 = All readings within each are equal: the resolution of the instrument hides their spread.
not-charted-385d099b = Not charted: { $why }.
groups-give-provisional-limits-and-2ec68c38 = {" "}{ $m } groups give provisional limits; 20 and more are usual (ISO 7870-2, from memory).
groups-of-readings-scatter-by-b2b0c905 = { $m } groups of { $size } readings scatter by { $sigma } within each; spread beyond its limits: { $spread_beyond }; mean beyond its limits: { $beyond }.{ $provisional }
standard-deviation-within-70674f46 = standard deviation within
mean-standard-deviation-of-the-3a7b932d = mean standard deviation of the groups over c₄
limits-of-the-standard-deviation-709a1265 = limits of the standard deviation of one group
to-b22dff9c = { $spread_limits } to { $spread_limits2 }
b-b-iso-from-memory-26429aad = B₃, B₄ (ISO 7870-2, from memory; e-Handbook 6.3.2.1)
limits-of-the-mean-of-e8d758bc = limits of the mean of one group
a-they-hold-where-groups-444a1554 = A₃; they hold where groups differ by no more than readings do
numbers-of-the-readings-59d2452e = Numbers of the readings
spread-within-each-f1b494bb = { $series }: spread within each

## src/page/trends.rs

characteristics-followed-in-the-order-53785379 = Characteristics followed in the order of production
characteristic-3be6679c = characteristic
course-d1f81558 = course
what-they-say-together-9821bbc2 = what they say together
trends-88cb72d9 = Trends
each-characteristic-in-the-order-63c7fe52 = Each characteristic in the order of production: limits, drift, capability, and how rolls, stations and operators compare. A value beyond control limits is no failure: it is a question.
characteristics-4bb8a7dd = Characteristics
each-characteristic-is-looked-at-c45cf8ad = Each characteristic is looked at by several tests at the level 0.05, its order by seven at a seventh of that: among so many, a few stand out by chance alone. What stands out is a reason to look, and no finding.
which-dossiers-these-stand-on-37b698b0 = Which dossiers these stand on
on-the-records-of-this-74d8a71d = On the records of this customer's copy alone: its own lots, and no others.
on-the-records-of-this-2d2ebec5 = On the records of this dossier alone. With --history FOLDER older compiled dossiers join the trends, each named by its digest.
older-dossiers-ada22415 = Older dossiers
dossier-8cf764ea = dossier
revision-b7960e18 = revision
lots-df232561 = lots
digest-sha-ed6096a4 = digest (SHA-256)
draft-something-blocks-its-release-2a58cd8b = draft: something blocks its release
complete-55caed82 = complete
on-the-records-of-this-331a8283 = On the records of this dossier and, for trends alone, on older ones. Each was whole by its own manifest when it was read; its figures were computed again from its records, and the values used are sealed here in history.json.

## src/site/again.rs

data-cannot-be-read-2bebc3a9 = data/{ $path } cannot be read: { $error }
data-is-not-a-list-da23dd4b = data/{ $what } is not a list of names
data-names-a-path-outside-e2ded6af = data/{ $what } names a path outside the copy
is-missing-or-differs-itself-4f77f17e = { $list } is missing or differs itself, and nothing else vouches for the records
data-differs-itself-d7d5be67 = data/{ $needed } differs itself
data-cannot-be-read-ab9def14 = data/{ $what } cannot be read
data-is-not-what-this-c89df5a5 = data/{ $what } is not what this program writes
it-was-compiled-by-a-283878c1 = it was compiled by { $program }, a later version than this one, { $own }: check it with that version or a later one
this-copy-says-that-it-36a9ea4d = this copy says that it was made by { $program }, and nobody signs the pages of a copy: check it with that version, which makes them again

## src/site/mod.rs

one-finding-blocks-release-21f3318d = One finding blocks release.
findings-block-release-442defa7 = { $n } findings block release.
unnamed-faca275f = unnamed
the-template-fails-c9e3ef81 = the template { $template } fails: { $error }
this-is-a-fault-of-e54d6f74 = This is a fault of the program, not of the records: please report it.
making-pages-b784cd20 = making pages
draft-not-released-0d11e09c = DRAFT, NOT RELEASED
copying-records-0dd5137e = copying records
draft-4410668d = draft: { $draft }

## templates/base.html

only-rows-with-58dc4bf0 = Only rows with
open-every-proof-1f548124 = Open every proof
close-every-proof-7a8a8196 = Close every proof
to-the-content-0f1cb18a = to the content
pages-7decab7f = Pages
open-points-2eea9140 = open points
evidence-c21f2024 = evidence
not-in-here-166454ed = not in here
joins-abae03be = joins
sampling-c0db0290 = sampling
retention-26067391 = retention
instruments-54b08a79 = instruments
people-963335ee = people
recall-5a81bdb0 = recall
cautions-62cd210f = cautions
changes-3b29d74a = changes
words-5cb7aa8a = words
draft-not-released-c04c2acc = Draft: not released.
is-one-standard-uncertainty-u-e0b4701b = ± is one standard uncertainty, U the expanded one (95.45 %)
a-release-stays-the-decision-f79c53e8 = a release stays the decision of a qualified person; local law and codes come first.

## templates/sheet.html

inside-a04449f5 = inside:
room-37fd327a = room
reported-a5f0d7aa = reported
proof-of-8fe9f3be = proof of
inputs-9dcbd6b8 = Inputs
slope-si-622f779b = slope (SI)
uncertainty-budget-409304ac = Uncertainty budget
uncertainty-budget-standard-uncertainties-63ff4348 = Uncertainty budget (standard uncertainties)
cause-c8aed220 = cause
shared-by-4e1d5519 = shared by
share-a9c9fc38 = share
of-u-11604fc6 = % of u²
degrees-of-freedom-04944395 = degrees of freedom
m-cd49f36f = 95.45 %.
probability-that-the-true-value-c32a533c = Probability that the true value is inside the limit, from this measurement alone (JCGM 106:2012, clause 7):
the-rest-is-the-risk-6bf030b4 = the rest is the risk of the customer.
limit-1c83b10a = limit:
method-a923e4be = method:

## templates/find.html

things-can-be-found-abbcb873 = things can be found.
found-64ff7b9f = found
the-first-are-shown-6981ad87 = the first 60 are shown
type-what-you-look-for-c27922ee = Type what you look for
id-lot-roll-day-or-3781b375 = Id, lot, roll, day or word; several words narrow it down

## templates/check.html

checked-so-far-8383a925 = checked so far:
files-are-as-listed-nothing-9d1f6b67 = files are as listed; nothing is missing, nothing was added.
differences-files-as-listed-6c40824c = differences; files as listed:
changed-4629e89b = changed
not-listed-56b6483b = not listed
left-by-an-operating-system-96cdb871 = left by an operating system, not part of the dossier
there-is-no-manifest-in-9cf344a5 = There is no manifest in this folder: choose the one that holds START-HERE.html.
the-signature-fits-key-14bce264 = the signature fits; key
does-not-hold-1ab198e2 = DOES NOT HOLD
this-browser-cannot-check-a-8eff7c30 = this browser cannot check a signature of this kind
nobody-has-signed-this-copy-dc33c5bb = Nobody has signed this copy.
nobody-has-signed-this-copy-5126b856 = Nobody has signed this copy itself; the statements of the maker about the dossier that it was taken from lie in data/signed-dossier/signatures, and are not checked here.
this-browser-cannot-compute-sha-1af5ff3b = This browser cannot compute SHA-256 here; use the tools named below.
in-this-browser-2b95abd2 = In this browser
choose-the-folder-of-this-f46794fd = Choose the folder of this copy, the one that holds START-HERE.html. Nothing leaves this machine.
digest-of-the-dossier-sha-6e39a61d = Digest of the dossier (SHA-256), to be compared with the signed paper:
a-signature-that-fits-shows-71b8877e = A signature that fits shows that the holder of the key signed; whose key it is, only a list of keys that you trust shows: compare its fingerprint. A page cannot prove itself: ssh-keygen, as said below, or sealfolio verify check the same with tools of your own.

## templates/start-here.html

start-here-aeb7ca63 = Start here
open-the-release-page-a4810e92 = Open the release page
from-there-certificates-a-sheet-673132e8 = From there: certificates, a sheet for the plant of each element, trends, and a search by any number.
find-a-number-bee21bc6 = Find a number
everything-is-in-this-folder-9bab2b3f = Everything is in this folder; no network, no installation and no rights are needed. Keep the folder together when you copy it.
