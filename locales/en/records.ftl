# Written from the sources by `cargo run --example words`; not to be edited.

## src/approval/mod.rs

prepared-678971a8 = prepared
reviewed-1b78a778 = reviewed
approved-for-release-24721134 = approved for release
received-60ac56b2 = received
line-is-no-line-of-1c6b6714 = line { $n } is no line of an allowed_signers file without options: principals, kind of key, key
line-is-a-pattern-and-481f6280 = line { $n }: "{ $principals }" is a pattern, and the ids of persons are due
line-the-option-is-not-c257b787 = line { $n }: the option { $option } is not understood here; take it out of the copy of the file that you name
its-time-stamp-is-of-ac34c2ac = { $file }: its time stamp is of { $time }, before the statement was made
it-is-signed-as-after-af0cf26b = it is signed as { $meaning } after somebody signed as { $other }
signed-already-5dcc03fe = { $person } signed already
one-key-signs-for-and-77b6d605 = one key signs for { $one } and for { $other }
it-is-no-statement-of-f5256f1d = it is no statement of this form
it-is-written-otherwise-than-55843bba = it is written otherwise than a statement is
its-format-is-not-known-aa508f54 = its format is not known here
it-speaks-of-a-dossier-fde55f37 = it speaks of a dossier with another digest
the-statement-before-it-is-f83f7812 = the statement before it is not the one that it names: one was removed, added, changed or moved
its-file-has-another-number-893a863d = its file has another number or meaning than its place and its words
there-is-no-signature-beside-027f6d71 = there is no signature beside it that can be read
its-signature-is-written-otherwise-2665d134 = its signature is written otherwise than OpenSSH writes it
it-was-signed-for-another-936268f9 = it was signed for another purpose
the-signature-does-not-fit-9d23d902 = the signature does not fit it
the-kind-of-its-key-c49ad23d = the kind of its key is checked by OpenSSH alone, and ssh-keygen cannot be started here
this-key-is-not-one-e10e3596 = this key is not one that the signature policy of the dossier names for { $person }
cannot-write-the-statement-efbea1ef = cannot write the statement: { $error }
look-at-free-space-and-d48ae046 = Look at free space and rights; nothing was signed.
ssh-keygen-cannot-be-started-d7be9972 = ssh-keygen cannot be started
install-openssh-signing-is-left-23d34dfd = Install OpenSSH; signing is left to it, so that no private key is read here.
ssh-keygen-did-not-sign-210d460b = ssh-keygen did not sign with { $key }
name-a-private-key-or-886b9f78 = Name a private key, or the public half of one that an agent holds; nothing was signed.
sign-with-the-key-that-38443d4d = Sign with the key that it names; nothing was signed.
each-person-signs-with-a-92f4a789 = Each person signs with a key of their own; nothing was signed.
exists-already-d31c673d = { $file } exists already
somebody-signed-in-the-meantime-84913bab = Somebody signed in the meantime; look again, then sign after them.

## src/approval/stamp.rs

it-is-no-time-stamp-8b695596 = it is no time stamp of RFC 3161 that can be read
it-uses-a-hash-function-45fa8ad9 = it uses a hash function that is not known here ({ $oid })
it-speaks-of-another-signature-b10a5c19 = it speaks of another signature

## src/changes.rs

the-later-dossier-names-this-d7e7ae99 = The later dossier names this very copy as superseded, by its digest.
the-later-dossier-names-this-89f0c04d = The later dossier names this revision as superseded, without a digest: nothing shows that it means this very copy.
the-later-dossier-names-another-9c19da73 = The later dossier names another dossier as superseded, not this copy.
the-later-dossier-does-not-2c730978 = The later dossier does not say that it supersedes another.

## src/cli/affected.rs

from-lies-after-to-86908017 = --from lies after --to
turn-them-round-c466582a = Turn them round.
write-a-day-as-09d8e5ca = Write a day as 2026-03-20.
did-you-mean-0d73e720 = {" "}(did you mean { $near }?)
no-record-of-this-folder-7816f2d0 = no record of this folder knows { $id }{ $hint }
name-a-roll-a-lot-80e2b24f = Name a roll, a lot, a supplier lot, a material lot, a run of seals, an instrument, a person, a customer, an element, or a record that names elements.
records-cfee913f = , records { $when }
assembly-4ac8e61a = assembly  { $id }  { $state }; { $because }
in-service-at-a516797c = ; in service at { $site }
in-1f25534b = in { $assembly }, { $state }
module-by-9388b64d = module    { $id }{ $metres }  { $place }; by { $because }{"\u000A"}
no-1ed40140 = No { $one }.{"\u000A"}
assembly-23dabd65 = assembly
assemblies-b0104199 = assemblies
module-d79f909d = module
modules-5e3126aa = modules
to-be-told-44ea5473 = To be told: { $told }.{"\u000A"}
the-totals-agree-da76b50f = The totals agree.
the-totals-do-not-agree-769631be = The totals do not agree: { $disagreements }.

## src/cli/again.rs

waiting-for-changes-ctrl-c-10879c93 = Waiting for changes; Ctrl-C ends it.
nothing-was-written-over-name-5f370002 = Nothing was written over. Name another place for what comes next.
was-signed-since-it-was-cd683df8 = { $path } was signed since it was written
is-no-longer-what-this-a33d2e8c = { $path } is no longer what this run wrote there
the-pages-stay-as-they-29d30c9e = The pages stay as they were: { $n } findings block release. `sealfolio review { $folder }` tells them; --draft writes pages all the same.
written-reload-the-page-in-5e451624 = Written: { $path }. Reload the page in the browser.
cannot-put-the-dossier-to-dd508183 = cannot put the dossier to { $path }: { $error }
close-what-has-it-open-aa1923ee = Close what has it open; it is tried again after the next change.
verdicts-changed-none-237b2beb = Verdicts changed: none.

## src/cli/approve/claim.rs

it-speaks-of-and-this-fa4c02cc = it speaks of "{ $other }", and this is { $named }
it-is-signed-by-and-4ff446a7 = it is signed by { $name }, { $role }, and by the personnel_authorisation records of this dossier { $person } is { $own }, { $function }
the-statement-would-be-of-47741841 = the statement would be of { $time }, and the dossier of { $day }
nobody-signs-what-is-not-43bcec53 = Nobody signs what is not yet there: look at --at and at the clock of this machine.
signed-as-already-78352ecb = { $name } signed as { $meaning } already
one-signature-of-each-meaning-5274b1f2 = One signature of each meaning is enough; a correction is a new revision.
nobody-signed-as-yet-14872c6b = nobody signed as { $meaning } yet
the-order-is-prepared-reviewed-af1d7f5e = The order is: prepared, reviewed, approved for release, received.
signed-already-as-ed1edd1d = { $person } signed already, as { $meaning }
nobody-reviews-or-releases-their-9833b66f = Nobody reviews or releases their own work: another person must sign.
the-statement-before-is-of-b1f7678d = the statement before is of { $time }, which is later
set-the-clock-of-this-b8266d96 = Set the clock of this machine, or find out which of the two is wrong.
the-dossier-is-a-draft-f0176d80 = the dossier is a draft: { $n } of its findings block release
do-what-each-finding-says-85f5feda = Do what each finding says next, compile the next revision, and sign that.
findings-of-the-dossier-that-a945fec1 = findings of the dossier that must still be explained: { $n }
decide-a-deviation-for-each-5a147982 = Decide a deviation for each, compile the next revision, and sign that.
who-receives-is-not-in-a09b3636 = who receives is not in these records
add-name-and-role-5d6c3a6c = Add --name and --role.
dossier-yaml-expects-another-person-f69f4014 = dossier.yaml expects another person as { $meaning } than { $person }
have-the-person-sign-whom-00111441 = Have the person sign whom it names, or compile a revision that names this one.
is-not-authorised-to-sign-0ba217aa = { $person } is not authorised to sign as { $meaning } on { $day } by the personnel_authorisation records of this dossier
have-an-authorised-person-sign-a736891c = Have an authorised person sign.

## src/cli/approve/mod.rs

signed-as-on-for-9fa6fc96 = { $file }: { $name } ({ $person }) signed as { $meaning } on { $time }, for { $digest }.
by-the-clock-of-this-239baec6 = By the clock of this machine that moment is still to come: nobody can sign after it before then.
is-no-compiled-dossier-cdbd555d = { $shown } is no compiled dossier
name-a-folder-that-holds-2f915d34 = Name a folder that holds START-HERE.html.
does-not-verify-nothing-was-11ff3b6d = { $shown } does not verify: nothing was done
sealfolio-verify-says-what-is-88a21c5f = `sealfolio verify` says what is wrong.
does-not-hold-8757329e = { $file } does not hold: { $flaw }
a-chain-is-not-carried-33e741df = A chain is not carried on from a statement that does not hold.
write-day-time-and-offset-5fab5a27 = Write day, time and offset from UTC, as in "2026-03-20T09:56:00+01:00".
name-and-function-of-whoever-1ce2e668 = "{ $said }": name and function of whoever signs as { $meaning } stand in the sealed records
leave-name-and-role-out-a32dfc3a = Leave --name and --role out; they are for whoever receives.
the-id-name-or-function-3204a34d = the id, name or function of who signs has a character that nobody sees or that turns others round
write-it-again-with-letters-808ec512 = Write it again with letters, blanks and common marks alone.

## src/cli/approve/policy.rs

asks-for-as-and-is-cd8d191c = { $policy } asks for { $functions } as { $meaning }, and { $person } is { $role }
forbids-to-sign-as-they-0415f414 = { $policy } forbids { $person } to sign as { $meaning }: they signed as { $other }

## src/cli/compare.rs

both-are-one-dossier-sha256-625d47bc = Both are one dossier, sha256:{ $digest }: nothing differs.
is-not-whole-9821de5b = { $shown } is not whole ({ $first })
sealfolio-verify-says-what-differs-f17f9166 = `sealfolio verify` says what differs; take a whole copy.
take-a-whole-copy-0c0451c3 = Take a whole copy.
from-revision-to-revision-c94baf3f = From { $old } revision { $revision } to { $new } revision { $revision2 }.
verdicts-changed-83e0f39b = Verdicts changed: { $n }.
records-altered-under-the-same-239f8424 = Records altered under the same revision: none.
records-altered-under-the-same-b3c1a253 = Records altered under the same revision: { $all }.
released-assemblies-ae92e26a = Released assemblies
signatures-named-in-statements-35ff0214 = Signatures named in statements
records-by-revision-bd05eebf = Records by revision
figures-and-their-limits-ec9c51d9 = Figures and their limits
traces-attachments-and-chapters-by-2999f263 = Traces, attachments and chapters, by digest
findings-came-went-6e6b0099 = Findings: { $came } came, { $went } went.
nothing-changed-d805188a = nothing changed
came-went-became-another-9aaa7a4b = { $name }: { $came } came, { $went } went, { $moved } became another.
and-more-json-lists-all-bfb8fd86 = {" "} and { $n } more; --json lists all

## src/cli/compile.rs

nothing-was-written-since-the-e303d329 = nothing was written: since the dossier that this one supersedes, records were altered under the same revision: { $altered }
put-each-back-as-it-a64d303c = Put each back as it was, and write what is new as its next revision, which says what it supersedes and why.
nothing-was-written-files-of-1fa3b1c5 = nothing was written: files of the folder could not be taken in ({ $n })
mend-or-remove-what-r01-ceddfdc0 = Mend or remove what R01 names above: not even a draft can hold what is wrong with a file that is not in it.
nothing-was-written-finding-blocks-40f8c10b = nothing was written: 1 finding blocks release
nothing-was-written-findings-block-6972a570 = nothing was written: { $n } findings block release
do-what-each-finding-says-ae23ac94 = Do what each finding says next, or add --draft to write a dossier that is marked as a draft on every page.
pages-files-kb-files-and-45b1426b = { $pages } pages, { $count } files, { $bytes } KB ({ $files } files and { $assemblies } KB an assembly).
digest-of-the-dossier-sha256-ff93694d = Digest of the dossier: sha256:{ $digest }
does-not-fit-on-a-a2cb9817 = { $folder } does not fit on a stick formatted as FAT32: its names take { $entries } of at most { $room } entries. Lay its files in several folders, or format the stick as exFAT.
draft-marked-on-every-page-300b5910 = DRAFT: marked on every page; not to be released.
open-88faf678 = Open { $html }
dossier-yaml-does-not-name-66044f6f = dossier.yaml does not name { $folder } as superseded: it is { $id } revision { $revision }, digest sha256:{ $digest }
correct-supersedes-in-dossier-yaml-123e0d2f = Correct `supersedes` in dossier.yaml, or name the copy that it means.
exists-already-0c6549a1 = { $display } exists already
name-another-place-or-move-f50aabe8 = Name another place, or move it away first; a compiled dossier is never written over.
lies-inside-the-folder-that-e29f9dc0 = { $display } lies inside the folder that is read
name-a-place-outside-it-e67673d0 = Name a place outside it; a dossier must not become part of its own records.

## src/cli/explain.rs

is-no-figure-and-no-711fe1b5 = { $name } is no figure and no rule{ $near }
figures-are-rules-are-to-4843b7ba = Figures are: { $all }; rules are { $first } to { $last }.
alone-is-a-definition-which-3c670af1 = { $name } alone is a definition, which has no numbers
name-a-figure-of-a-0e3a2aa4 = Name a figure of a record too: { $name }@RECORD.
is-not-in-5c89eba4 = { $id } is not in { $folder }{ $near }
it-has-of-this-figure-eb0a10f6 = It has { $count } of this figure{ $first }.
the-first-being-59b4b701 = , the first being { $first }
monte-carlo-not-possible-56820e17 = Monte Carlo: not possible: { $why }.
holds-d44384cd = {"\u000A"}Holds: { $validity }
source-1dd2c049 = Source: { $source }
checked-fdd2920b = Checked: { $sentence }
not-evaluated-e76ffb33 = Not evaluated: { $why }.
inputs-f6dc7810 = {"\u000A"}Inputs
uncertainty-u-u-72f171dc = {"\u000A"}Uncertainty: u = { $factor }, U = { $figure } ({ $quantity }, 95.45 %)
of-37d9c668 = { $name } of { $of }
room-u-778bc717 = , room { $margin } u
decision-339b0f4f = {"\u000A"}Decision: { $limit }{ $at }: { $verdict }{ $room }
probability-that-the-true-value-8cc4e568 = Probability that the true value is inside: { $probability } (JCGM 106:2012, clause 7)
reported-6d131639 = Reported: { $reported } ({ $at })
no-contribution-stated-taken-as-b0291c0c = no contribution stated; taken as nothing
to-line-37bcaffc = { $first } to line { $line }

## src/cli/extract.rs

there-is-no-language-here-c16b2763 = there is no language { $code } here
choose-one-of-en-it-0b5831a8 = Choose one of en, it, fr, de, es, pt.
lots-pieces-shown-sealed-groups-c29b119a = Lots { $lots }: pieces shown { $shown }, sealed { $sealed }; groups withheld { $groups }.
nobody-has-signed-the-dossier-c4599856 = Nobody has signed the dossier yet: the copy proves what it is a copy of, and not who stands for that.
these-records-are-shown-whole-6767c6bc = These records are shown whole and name other lots too; read them before you hand the copy over:
and-more-dd486c71 = {" "} and { $differences } more
the-dossier-s-folder-had-5849e345 = The dossier's folder had no { $file }, so its salts stand on its records: whoever has nearly all of them could try out the rest. `sealfolio new` writes such a file.
digest-of-the-copy-sha256-380abc57 = Digest of the copy: sha256:{ $digest }
this-is-a-customer-s-6f39b03a = this is a customer's copy itself
take-the-copy-from-the-72ab7bc0 = Take the copy from the dossier that the maker signed.
this-dossier-is-a-draft-26c5fb0a = this dossier is a draft: findings block its release
customers-get-copies-of-what-c93b5ef0 = Customers get copies of what is released; clear the findings, or hold what they are about and leave it out.
belongs-to-no-statement-a8463add = { $folder }/{ $file } belongs to no statement
take-it-out-a-copy-dbb2f217 = Take it out: a copy takes along what is signed, and nothing else.
a-copy-is-not-taken-d87eec6c = A copy is not taken of a dossier whose signatures do not hold.
cannot-be-read-46be2b0f = { $folder } cannot be read: { $error }
look-at-rights-and-at-4140d30c = Look at rights and at the medium.
the-copy-would-not-hold-85719abe = the copy would not hold: { $flaw }
this-is-a-fault-of-06e5ee09 = This is a fault of the program or of the records; nothing was written.
the-figure-comes-out-otherwise-0f462d0b = the figure { $id } comes out otherwise from this part of the records
it-stands-on-records-of-aac36713 = It stands on records of other lots; ask for these lots too.

## src/cli/history.rs

is-given-twice-as-history-1d79b257 = { $folder } is given twice as history: its digest is that of another
name-each-older-dossier-once-47cb4bd9 = Name each older dossier once.

## src/cli/intake.rs

which-holds-the-mapping-has-fa581bd8 = { $file }, which holds the mapping { $id }, has findings
mend-what-is-said-above-9c8ab0c3 = Mend what is said above first.
makes-traces-which-come-in-eeb1d8b0 = { $id } makes traces, which come in with the record that names them
name-a-mapping-of-records-74d47adb = Name a mapping of records whose field of the trace names this one.
wrote-an-empty-form-of-72d8839e = Wrote { $form }: an empty form of { $n } columns.
cannot-read-1673b57f = cannot read { $path }: { $error }
name-a-file-of-at-7426df29 = Name a file of at most { $what } MiB that you may read.
there-is-no-mapping-in-a052da99 = there is no mapping { $id } in the folder{ $near }
begin-one-with-sealfolio-new-de5e86f4 = Begin one with `sealfolio new FOLDER --record intake_mapping`.
its-mappings-are-ccd05a1f = Its mappings are: { $known }.
if-it-is-there-and-f92b8c58 = If it is there and cannot be read, mend what is said above first.
nothing-was-taken-in-thing-4fce93ad = nothing was taken in: 1 thing is wrong
nothing-was-taken-in-things-e9f2690b = nothing was taken in: { $n } things are wrong
do-what-each-says-next-bff54084 = Do what each says next, and call it again.
of-rows-count-records-of-be9e73dc = { $export }: { $counted } of { $rows } rows count. Records of kind { $kind }: { $n }; here already: { $known }.
rows-that-do-not-count-45c207a8 = Rows that do not count, by their word: { $words }.
not-used-d37cf52e = Not used: { $columns }.
lines-and-are-alike-in-297d9356 = Lines { $one } and { $other } are alike in every cell, and both count: make sure that both were measured.
left-out-every-cell-of-8dfdab05 = Left out, every cell of theirs being blank: { $n } members of lists.
and-more-all-shows-every-c1a50a7a = … and { $n } more; --all shows every one.
two-files-would-be-92c64c31 = two files would be { $path }
take-the-exports-in-one-a11a8508 = Take the exports in one after the other, and rename one of the two files.
is-there-already-and-says-fd95593a = { $path } is there already, and says something else
nothing-is-ever-written-over-0da8f307 = Nothing is ever written over: rename one of the two files, or move it away.
cannot-write-nothing-was-taken-c3f58a25 = cannot write { $path }: { $error }; nothing was taken in
look-at-free-space-and-5edcd513 = Look at free space and rights.
every-record-is-here-already-3391938e = Every record is here already: nothing to write.
wrote-records-and-files-that-c5705a84 = Wrote { $names } (records: { $n }), and files that they name: { $others }.
next-sealfolio-review-43dda08a = Next: `sealfolio review { $root }`.
nothing-was-written-write-puts-78c2c127 = Nothing was written. --write puts { $n } of them into { $names }, and files that they name into exports/ and traces/: { $others }.
is-in-already-and-says-728e39b9 = { $id } is in { $place } already, and says { $theirs } for { $field } where line { $line } of the export gives { $mine }
a-record-is-never-edited-a2917821 = A record is never edited. If the export is right, write a revision that supersedes it and says why.
exists-already-8b0db068 = { $path } exists already
name-a-file-that-does-ab79c27e = Name a file that does not exist yet; nothing is ever written over.
cannot-write-13fa917c = cannot write { $path }: { $error }

## src/cli/mod.rs

the-system-gives-no-thread-e8dbcd46 = The system gives no thread to work with; close other programs.

## src/cli/review.rs

not-evaluated-f93d412f = not evaluated: { $why }
not-evaluated-no-to-look-3fb008fe = not evaluated: no { $things } to look at
looked-at-findings-22df339e = looked at { $n } { $things }, findings: { $count }
trend-9135c5a4 = trend: { $series }: { $said }
characteristics-looked-at-in-the-131d881e = { $looked } characteristics looked at in the order of production, over this dossier and { $count } older; { $short } have too few values.{"\u000A"}
in-conform-undecided-do-not-0f0c9b13 = { $all } in { $files }; { $computed }: { $verdicts } conform, { $verdicts2 } undecided, { $verdicts3 } do not conform, { $verdicts4 } not evaluated, { $verdicts5 } without a limit.{"\u000A"}{ $checked } run, { $blind } of them not evaluated. { $dossier } { $dossier2 } release, { $dossier3 } must be explained, { $dossier4 }.
record-593058cc = record
records-261bb4ad = records
file-aaea5743 = file
files-3ee74090 = files
figure-61a6d509 = figure
figures-33a20f0e = figures
rule-fc2e40d3 = rule
rules-9ccfbbe0 = rules
finding-6916d126 = finding
findings-c3eb88cf = findings
blocks-160da1c3 = blocks
block-eb0cbd62 = block
note-919a0c3d = note
notes-83815eca = notes

## src/cli/schema.rs

is-no-kind-of-record-4d66298b = { $name } is no kind of record{ $near }
sealfolio-schema-lists-them-fe1cb157 = `sealfolio schema` lists them.

## src/cli/show.rs

a-record-that-cannot-be-f14993a8 = A record that cannot be read is not used: what is missing below may be missing for that reason alone. Mend what stands above first, then look again.
more-findings-sealfolio-review-all-d302ad56 = More findings: { $n }. `sealfolio review --all` tells them all.
blocks-release-87ab1b5a = blocks release
must-be-explained-dbc9873b = must be explained
not-taken-in-0876c900 = not taken in
next-5cb68de8 = next

## src/cli/verify.rs

is-not-a-folder-aa9c685f = { $folder } is not a folder
name-the-folder-that-holds-b761e4dc = Name the folder that holds START-HERE.html.
is-no-compiled-dossier-it-bb1b4ae6 = { $folder } is no compiled dossier: it has no bagit.txt and no manifest
name-the-folder-that-holds-3c2a0c8a = Name the folder that holds START-HERE.html; `sealfolio review` looks at a folder of records.
whole-holds-files-are-as-c68aa286 = whole:      holds. { $good } files are as listed, nothing is missing, nothing was added.
whole-does-not-hold-files-b1cf1bee = whole:      does not hold. { $good } files are as listed, 1 difference.
whole-does-not-hold-files-cbb7efc0 = whole:      does not hold. { $good } files are as listed, { $n } differences.
recomputed-not-run-only-the-55f5df72 = recomputed: not run; only the bytes were asked for.
recomputed-not-run-this-is-637f3a77 = recomputed: not run; this is a bag (RFC 8493), and no dossier of this program.
who-must-sign-it-stands-0a257780 = {" "}           Who must sign it stands nowhere in it: --all-signed does not hold.
recomputed-not-run-as-a-ac917e61 = recomputed: not run as a whole, because the copy is not whole.
recomputed-does-not-hold-38d8727a = recomputed: does not hold: { $why }.
recomputed-holds-figures-and-every-62456884 = recomputed: holds. { $figures } figures and every page come out again from the sealed records, byte for byte.
comes-out-differently-1ead18a3 = {" "} comes out differently: { $path }
recomputed-does-not-hold-files-a22dae13 = recomputed: does not hold. { $count } files come out differently with this program ({ $what }).
draft-findings-of-this-dossier-29776eea = draft:      findings of this dossier that block release: { $blocks }; nothing of it is released.
not-recomputed-this-build-has-4ecfa68c = not recomputed: { $file } (this build has no tables; its bytes are as listed).
copy-not-run-who-signed-1bb1f1e5 = copy:       not run; who signed the dossier that it was taken from is looked at without --bytes.
copy-not-run-because-this-2e10d1b2 = copy:       not run, because this copy is not whole; who signed the dossier that it was taken from is looked at with it.
succession-its-digest-was-the-679fa284 = succession: { $named } Its digest was { $digest }; the page of changes says what became another, by the word of whoever compiled it; `sealfolio compare OLDER THIS` asks the older one itself.
succession-not-run-the-superseded-2dce9fa6 = succession: not run; the superseded dossier was not at hand when this was compiled. `sealfolio compare OLDER THIS` does it.
the-digest-on-the-maker-8701bc5f = The digest on the maker's signed paper is that of the whole dossier, { $signed }. This copy has its own, which whoever took it can tell you:{"\u000A"}{ $digest }
compare-this-digest-with-the-fd431232 = Compare this digest with the one on signed paper; nothing else shows who issued the copy:{"\u000A"}{ $digest }
computed-otherwise-since-ba47ee71 = {" "} computed otherwise since { $program }: { $id }
figures-have-a-method-that-12faa97b = { $count } figures have a method that was changed after { $program }; what the change does not touch comes out again. The page of methods of either version and the change log say how; { $program } repeats them to the last digit.
recomputed-holds-figures-come-out-a5d6bea1 = recomputed: holds. { $figures } figures come out again from the sealed records. The pages were made by { $program } and not made again, nor was judged again what let it be released: { $own } makes other pages and has other rules.
recomputed-does-not-hold-figures-7572ec4b = recomputed: does not hold. { $count } figures come out differently than { $program } printed them.
name-a-file-of-the-3f28b550 = Name a file of the form of OpenSSH's allowed_signers.
signed-cannot-be-said-3716fe7a = signed:     cannot be said: { $why }.
does-not-hold-364201a7 = does not hold: { $flaws }
holds-and-the-key-is-0ff2803c = holds, and the key is known as this person's
the-signature-fits-and-the-76055727 = the signature fits, and the key is not known as this person's: { $key }
the-signature-fits-signed-by-21756e44 = the signature fits; signed by an unknown key, because no allowed_signers file was given: { $key }
by-the-clock-of-this-837e35a9 = {" "}   by the clock of this machine that moment is still to come
a-time-stamp-of-for-33277dbd = {" "}   { $file }: a time stamp of { $time } for this very signature; who made it is not checked here, `openssl ts -verify` does that
belongs-to-no-statement-1b9e243e = {" "} { $file }: belongs to no statement
signed-by-nobody-cd3f64d1 = signed:     by nobody.
signed-incomplete-what-is-there-51d32288 = signed:     incomplete. What is there fits; statements that are expected are not there: they were not made yet, or were taken away.
signed-by-unknown-keys-statements-76459163 = signed:     by unknown keys. { $n } statements, and their signatures fit; whose keys they are, only --allowed-signers can tell.
signed-holds-statement-with-its-2aacd9cb = signed:     holds. 1 statement with its signature.
signed-holds-statements-each-with-5303e8ca = signed:     holds. { $n } statements, each with its signature, in one chain.
signed-does-not-hold-3db8a9ee = signed:     does not hold.
expected-and-not-there-c766a814 = {" "}           expected and not there: { $all }
copy-holds-the-lots-are-a57d6d4e = copy:       holds. The lots { $lots } are here as in { $identity }, { $digest }: { $shown } pieces shown, { $sealed } sealed, none left out. Signatures of that dossier:
copy-does-not-hold-it-8a879773 = copy:       does not hold. It does not show the lots { $lots } as they are in { $identity }. Signatures of that dossier:
draft-it-was-taken-from-94fe62f2 = draft:      it was taken from a draft; nothing of it is released.
sealed-by-the-word-of-174c0bb1 = {" "}           Sealed, by the word of whoever took the copy because they name another customer or speak of lots that are not shown: { $kinds }.
set-aside-because-records-of-0d505a08 = {" "}           Set aside, because records of others would be needed for them: findings of { $rules }. Who took the copy decided which; ask the maker.
still-holds-cannot-be-said-93540a66 = still holds: cannot be said, because { $why }.
still-holds-every-record-is-cbbed966 = still holds: every record is whole, and all { $stand } figures come out again as they were printed.
and-more-88bd6c0c = {" "}and { $more } more
still-holds-figures-stand-on-b6a995f4 = still holds: { $stand } figures stand on whole files alone and come out again as they were printed. { $count } do not: { $named }{ $rest }.

## src/cli/watch.rs

about-s-left-3353da2c = about { $n } s left
about-min-left-f27653f7 = about { $n } min left

## src/dossier.rs

it-looks-at-more-than-64350f56 = it looks at more than this copy shows; of the whole dossier it was evaluated
pieces-of-customer-s-copies-8bde11dc = pieces of customer's copies
do-not-use-the-copy-421a0572 = Do not use the copy; ask its maker for another.
pieces-are-shown-stay-sealed-a6685cef = { $shown } pieces are shown, { $sealed } stay sealed; together with the seals of all that is withheld they give the root that was signed.
the-chapter-is-not-in-0baddeb9 = the chapter { $chapter } is not in the folder
write-it-or-take-it-8a31077c = Write it, or take it off the list.
is-not-utf-c1683260 = is not UTF-8
save-the-file-again-with-5c67bf8b = Save the file again with the encoding UTF-8.
there-is-no-figure-0e73a207 = there is no figure { $id }{ $near }
sealfolio-explain-figure-lists-the-88fc2f3b = `sealfolio explain FIGURE` lists the figures; a chapter never types a number.
still-stands-here-as-the-38b58fad = "{ $text }" still stands here, as the form has it.
write-the-name-of-the-812771dc = Write the name of the maker, the customer or the person.

## src/extract/choose.rs

dossier-yaml-holds-other-records-905c856a = dossier.yaml holds other records than its own
give-them-a-file-of-da7187ac = Give them a file of their own: a copy has a dossier.yaml of its own.
there-is-no-lot-in-353a9142 = there is no lot { $lot } in this dossier
its-lots-are-f72cfd5d = Its lots are: { $there }.
no-lot-of-this-dossier-f5864b33 = no lot of this dossier is known: no pleating_record is among its records
a-copy-is-made-by-db18d997 = A copy is made by lots: add the pleating records, and compile again.
nothing-of-this-dossier-was-b52888bb = nothing of this dossier was released to { $customer }
name-the-customer-id-of-bf8798e5 = Name the customer_id of a release statement, or lots with --lot: { $there }.
this-dossier-has-no-head-b63439f7 = this dossier has no head
as-in-the-dossier-from-5d549b74 = as in the dossier from which this copy was taken

## src/extract/mod.rs

it-names-another-customer-e3ebd5d5 = it names another customer
it-speaks-of-lots-that-0bfbc39f = it speaks of lots that are not shown
it-is-an-export-whose-df084095 = it is an export, whose rows may speak of others
a-piece-of-the-kind-c6fe1697 = { $name }: a piece of the kind { $kind } is sealed that names no customer: nothing allows that
a-piece-that-is-to-aeced8d1 = { $file }: a piece that is to be shown is not there
the-group-has-no-salt-3383b8b5 = the group { $name } has no salt
part-is-not-of-the-d553d2b2 = { $file }: part { $n } is not of the signed dossier
the-records-shown-and-the-7acfbaa2 = the records shown and the seals of those withheld do not give the root that the signed dossier states: a record was changed, left out or added
bag-info-txt-of-the-f59ff40c = bag-info.txt of the signed dossier is not the one that its tag manifest lists
dossier-yaml-says-and-the-08ec82d1 = dossier.yaml says { $own }, and the signed dossier says otherwise under { $name }
lot-was-asked-for-and-f4f1c204 = lot { $lot } was asked for and is not shown
lot-is-here-and-not-b86c03a0 = lot { $lot } is here and not shown as a whole
dossier-yaml-says-revision-and-b0b12d58 = dossier.yaml says { $id } revision { $revision }, and the copy is of { $identity }
dossier-yaml-has-the-title-d2f3ea8a = dossier.yaml has the title "{ $title }", and a copy of these lots is called "{ $due }"
dossier-yaml-names-to-whom-7d090529 = dossier.yaml names { $id }, { $name }, to whom no release in this copy went
the-copy-says-that-it-82017396 = the copy says that it is { $customer }'s, and its releases went to others
lot-customer-s-copy-8b5ad469 = Lot { $lots }: customer's copy
lots-customer-s-copy-5c4c29c4 = Lots { $lots }: customer's copy

## src/ground/number.rs

has-a-comma-which-may-79d4fba1 = `{ $word }` has a comma, which may mean decimals or thousands: write { $word2 } or { $word3 }
is-not-a-decimal-number-a7d7690f = `{ $word }` is not a decimal number
is-too-large-to-be-95ce67c2 = `{ $word }` is too large to be a number here
has-a-blank-that-does-58910af2 = `{ $what }` has a blank that does not break: it looks like one and is none; write an ordinary blank
has-no-blank-between-number-bfa37648 = `{ $what }` has no blank between number and unit; write `{ $i } { $i2 }`
has-no-unit-7b6a2728 = `{ $what }` has no unit
unit-is-not-known-did-53cb1948 = unit `{ $symbol }` is not known (did you mean `{ $near }`?)
unit-is-not-known-907bfa21 = unit `{ $symbol }` is not known

## src/ground/place.rs

line-31678db3 = { $file } line { $line }

## src/ground/time.rs

is-not-a-time-of-8a92b465 = is not a time of the form 2026-03-20T09:56:00+01:00
has-no-offset-e92dbb9d = has no offset
has-a-blank-where-a-048f445c = has a blank where a T is due
has-an-offset-that-is-306239a5 = has an offset that is not of the form +01:00
has-a-second-which-cannot-d63b2b4e = has a second 60, which cannot be ordered
is-not-a-moment-of-939cf631 = is not a moment of the calendar
is-not-a-date-of-e12a4722 = is not a date of the form 2026-03-20
is-not-a-day-of-76f8b4d1 = is not a day of the calendar

## src/ground/words.rs

months-18182bc2 = months

## src/intake/again.rs

nothing-527dae8a = nothing

## src/intake/mod.rs

was-in-line-already-f6b8df06 = { $id } was in line { $line } already
rows-that-belong-together-are-146485b2 = Rows that belong together are named by `together` in the mapping; else two things bear one id: find out which.
has-no-row-to-take-e20aef7a = has no row to take a record from
look-whether-the-export-is-3ff5b01e = Look whether the export is whole, and at `only` and `header_row` of the mapping.
this-row-says-and-counts-1614fd8e = this row says "{ $cell }", and "{ $word }" counts: for capitals or blanks alone a row is not left out
add-the-word-to-only-5820759a = Add the word to `only` in the mapping, as the export writes it.

## src/intake/plan.rs

there-is-no-kind-of-bbe772d6 = there is no kind of record { $kind }{ $near }
sealfolio-schema-lists-them-a-9f86d2d1 = `sealfolio schema` lists them; a mapping of traces says trace.
stands-twice-f3039266 = { $field } stands twice
take-one-of-them-out-28f3958f = Take one of them out.
it-fills-no-which-every-fcf63e4b = it fills no { $name }, which every { $kind } needs
add-it-to-fields-with-48121201 = Add it to `fields`, with the column or the text that gives it.
the-export-has-no-column-f18df82a = the export has no column "{ $name }"{ $near }
its-columns-are-b5405fb9 = Its columns are: { $columns }.
the-export-has-several-columns-ee1b4148 = the export has several columns "{ $name }"
name-columns-apart-where-the-83c3afa0 = Name columns apart where the export comes from.
needs-one-of-column-text-40fb002a = { $field } needs one of column, text and trace
say-where-its-value-comes-8c0b90bf = Say where its value comes from.
is-a-trace-and-needs-2a15891c = { $field } is a trace, and needs `trace`
say-which-file-beside-the-f31c03dc = Say which file beside the export it is; a column in braces stands for its cell.
is-no-trace-af2f15eb = { $field } is no trace
say-where-its-value-comes-c1bb490c = Say where its value comes from by column or text.
is-no-way-to-a-56050370 = "{ $way }" is no way to a field
write-module-id-measurements-test-d39489e1 = Write module_id, measurements[0].test_pressure or readings[].width.
there-is-no-field-here-e8f411af = there is no field { $key } here{ $near }
sealfolio-schema-kind-shows-the-7258a370 = `sealfolio schema KIND` shows the fields of a kind.
has-brackets-where-no-list-5704d504 = { $field } has brackets where no list is
is-a-map-or-a-36f1793f = { $field } is a map or a list, not a value
name-one-of-its-fields-f5abfe22 = Name one of its fields: a dot leads into a map, brackets into a list.
is-no-time-and-no-dabd7383 = { $field } is no time and no date, and takes no form
leave-form-out-b80273bc = Leave `form` out.
takes-no-unit-3d87ed76 = { $field } takes no unit
leave-unit-out-sealfolio-schema-f77b1b19 = Leave `unit` out; `sealfolio schema KIND` shows what the field is.
is-not-measured-in-b225f501 = { $field } is not measured in { $unit }
it-takes-one-of-5088edd4 = It takes one of: { $known }.

## src/intake/record.rs

column-is-blank-here-8093493c = column "{ $column }" is blank here: { $message }
find-the-value-where-it-99889321 = Find the value where it was measured, and export again; nothing is filled in.
column-ceb8c2b3 = { $message } (column "{ $column }")
is-here-and-in-line-fd2c90de = { $field } is "{ $raw }" here and "{ $other }" in line { $before }, and both lines make one record
find-out-which-is-right-fa52c37b = Find out which is right; a field that each row has of its own is written with [] in the mapping.
is-no-name-of-a-65a61925 = "{ $name }" is no name of a file beside the export
put-the-traces-into-the-9de0ac0c = Put the traces into the folder of the export.
there-is-no-beside-the-90d99bd6 = there is no { $name } beside the export
fetch-it-from-the-instrument-ef04f081 = Fetch it from the instrument; a record without its trace is not taken in.
line-a3959e81 = { $name } line { $line }: { $message }
write-a-mapping-that-makes-e4519e9e = Write a mapping that makes trace, and name it here by `mapping`.
rename-one-of-them-and-ba357de5 = Rename one of them, and the text that names it.
there-is-no-mapping-that-962a0dae = there is no mapping { $id } that makes trace
write-it-as-a-record-476c988f = Write it as a record of kind intake_mapping with makes: trace.

## src/intake/sheet.rs

is-larger-than-mib-ff577d57 = is larger than { $what } MiB
export-fewer-rows-at-a-6f1c84ea = Export fewer rows at a time.
is-not-csv-here-63513db6 = is not CSV here
export-it-again-313949b2 = Export it again.
has-columns-at-most-are-605a1bc0 = has { $count } columns; at most { $what } are read
look-at-field-separator-of-7bb14d7d = Look at field_separator of the mapping.
row-has-fields-expected-a238534c = row has { $count } fields, { $columns } expected
look-at-field-separator-of-67a3d396 = Look at field_separator of the mapping, and at what is in this row; nothing is guessed.
has-more-than-rows-abc0c780 = has more than { $what } rows
has-more-than-cells-71d220ba = has more than { $what } cells
has-no-line-which-should-25f9116b = has no line { $n }, which should hold the names of the columns
look-at-header-row-of-8e8f6f51 = Look at header_row of the mapping, and whether the export is whole.
find-out-in-which-cell-8ba7fa56 = Find out in which cell it stands. Where marks are letters like any other, as in 20", say quotation_marks: false in the mapping; else export again without it.
a-quotation-mark-makes-one-4fd65b73 = a quotation mark makes one row of lines { $line } to { $last }
a-quotation-mark-is-not-2aae109a = a quotation mark is not closed here
header-row-is-and-lines-9bf7635d = header_row is 0, and lines count from 1
write-the-line-that-holds-f2a72fa8 = Write the line that holds the names of the columns.
thousands-separator-and-decimal-separator-8c1d09d2 = thousands_separator and decimal_separator are both { $sign }
state-them-as-the-export-34afd3cb = State them as the export writes its numbers; decimal_separator is a point when absent.
there-is-no-time-zone-90e8445f = there is no time zone { $zone }
write-an-offset-such-as-52467b0e = Write an offset such as "+01:00", or a name of the IANA time zone database such as Europe/Rome.
field-separator-is-and-one-0f6d5b81 = field_separator is "{ $what }", and one character or tab is due
write-or-tab-8c8d7c19 = Write ",", ";", "|" or tab.
there-is-no-encoding-38539133 = there is no encoding { $what }
write-a-label-of-the-8a43020a = Write a label of the Encoding Standard: utf-8, utf-16le, windows-1252, iso-8859-15 …
is-by-the-mark-at-070de112 = is { $marked } by the mark at its head, and the mapping says { $encoding }
state-the-right-encoding-in-4feb6d2c = State the right encoding in the mapping.
is-not-here-c17ee46f = is not { $encoding } here
state-the-right-encoding-in-2b2ae442 = State the right encoding in the mapping: spreadsheets often write windows-1252.

## src/intake/trace.rs

needs-a-column-5f146b27 = { $field } needs a column
a-trace-is-made-of-a0c9d57a = A trace is made of columns only.
is-blank-63c921b9 = { $field } is blank
a-trace-has-every-reading-dba6a08e = A trace has every reading; export it again.

## src/intake/value.rs

has-the-unseen-character-u-c4f613cf = has the unseen character U+{ $u32 } here
delete-it-where-the-export-1fa94b57 = Delete it where the export comes from, and export again.
is-none-of-the-words-912b5cac = "{ $raw }" is none of the words of the mapping
it-knows-add-the-word-cdd4390f = It knows { $known }; add the word to `words`, or have it put right where it was written.
does-not-look-like-0ad95d4e = "{ $said }" does not look like { $pattern }
is-a-digit-and-a-9c062fd4 = # is a digit and @ a capital letter. Find out what was tested; mend the pattern only if it is wrong.
brings-the-unit-and-the-146ab231 = "{ $said }" brings the unit { $own }, and the mapping gives it { $unit }
leave-unit-out-of-the-4c47112b = Leave `unit` out of the mapping where the export writes units.
has-and-not-between-groups-e8dff6fc = "{ $text }" has { $sign }, and not between groups of three digits
look-at-decimal-separator-and-59a56c54 = Look at decimal_separator and thousands_separator of the mapping.
has-although-the-decimal-sign-c983dd14 = "{ $text }" has { $sign } although the decimal sign is { $decimal }: it could mean two numbers
state-decimal-separator-and-thousands-9bffda45 = State decimal_separator and thousands_separator in the mapping as this export writes them; nothing is guessed.
find-the-right-value-where-f5d036c9 = Find the right value where it was measured, and export again; add a word to `blank` only where it means that nothing was measured.
never-was-in-clocks-were-ca7d02f8 = "{ $text }" never was in { $zone }: clocks were put forward
find-out-in-which-zone-3ef20117 = Find out in which zone the clock of the instrument stood.
was-twice-in-clocks-were-a8cad662 = "{ $text }" was twice in { $zone }: clocks were put back
export-times-with-their-offset-21998a25 = Export times with their offset, or find out which of the two it was and write that record by hand.
has-no-offset-bbc7ba30 = "{ $text }" has no offset
state-time-zone-in-the-b86a9f5a = State time_zone in the mapping: where the clock of the instrument stood.
would-be-in-the-year-32ac0a64 = "{ $text }" would be in the year { $year }
look-at-the-form-y-15cec060 = Look at the form: %Y reads four digits of a year, %y two.
is-not-of-the-form-fd01130b = "{ $text }" is not of the form { $form }
mend-the-form-in-the-1dba6eff = Mend the form in the mapping if it is wrong; the signs are those of strftime.
is-not-of-iso-and-e4471224 = "{ $text }" is not of ISO 8601, and could mean two days
state-in-the-mapping-in-9965ded1 = State in the mapping in which form it is written, such as form: "%d.%m.%Y %H:%M".

## src/metrology.rs

trials-at-least-are-needed-eb0640dd = { $trials } trials: at least 1000 are needed
is-no-spread-71d0a55a = { $spread } is no spread
of-draws-have-no-result-49572379 = { $lost } of { $trials } draws have no result: the formula does not hold over the whole spread
u-must-be-above-zero-ea8264bd = u must be above zero: no measurement is exact
is-no-distribution-of-a-e85aca1d = { $what } is no distribution of a process
no-limit-to-judge-against-5555c916 = no limit to judge against
the-lower-limit-is-not-4f7e5bc4 = the lower limit { $lower } is not below the upper { $upper }

## src/physics/exposure.rs

time-must-rise-with-one-f485ad24 = time must rise, with one value each
an-activation-energy-below-j-f9919492 = an activation energy below 1000 J/mol: kJ written as J?
a-negative-concentration-9fec6ac2 = a negative concentration
no-colonies-a-bound-not-619be3f4 = no colonies: a bound, not a value
plate-count-275b1060 = plate count
the-share-that-was-counted-ff554449 = the share that was counted lies outside 0 to 1
is-no-count-110208c8 = { $count } is no count
a-coefficient-above-1e-k-6a73d633 = a coefficient above 1e-3 1/K: written in 1e-6 1/K without its factor?
the-pleat-count-must-be-7ca4f3a8 = the pleat count must be a whole number
pleat-height-92b3bcdc = pleat height
width-95876e1f = width
m-is-out-of-scale-24c9fe53 = { $name } { $x } m is out of scale: millimetres written as metres?
is-not-in-the-table-6ef16598 = { $other } is not in the table

## src/physics/filter.rs

contact-angle-degrees-the-liquid-816e3818 = contact angle >= 90 degrees: the liquid does not wet
shape-factor-21c45c55 = shape factor
surface-tension-a2bda036 = surface tension
diameter-d96f5cba = diameter
pressure-left-6c9a2d83 = pressure left
diffusion-coefficient-c487e02d = diffusion coefficient
solubility-c4cbf161 = solubility
pressure-cfa8a3a2 = pressure
porosity-0f8ba204 = porosity
a-porosity-above-or-a-46655851 = a porosity above 1, or a tortuosity below 1
tortuosity-366288d9 = tortuosity
reference-pressure-267e7b01 = reference pressure
test-pressure-at-or-above-c4ceebe4 = test pressure at or above the bubble point: bulk flow, not diffusion
test-pressure-20fb18dc = test pressure
absolute-pressure-7b6b36a7 = absolute pressure
volume-2ee0698f = volume
duration-2fa0fd0d = duration
an-uncertainty-is-negative-or-45ceb9d1 = an uncertainty is negative, or a correlation lies outside -1 to 1
end-pressure-f755da31 = end pressure
at-least-points-are-needed-de37476a = at least 3 points are needed
time-stamps-do-not-rise-b6634fd1 = time stamps do not rise
the-pressure-does-not-fall-010d0c3a = the pressure does not fall
rate-of-decay-603b9bde = rate of decay
the-end-pressure-must-lie-0563fd6e = the end pressure must lie between the two before it
vessel-78329d3b = vessel
linear-part-972d8775 = linear part
at-least-points-are-needed-f3586c33 = at least 3 points are needed: two points and two parameters leave no residual
flow-and-pressure-difference-must-abac803a = flow and pressure difference must be > 0
all-points-stand-at-one-78e71ef3 = all points stand at one flow: its two parts cannot be told apart
the-quadratic-part-of-the-e3987bb6 = the quadratic part of the resistance is negative beyond its doubt: the points contradict each other
recovery-must-be-a3975642 = recovery must be > 0

## src/physics/fluid.rs

pa-lies-outside-to-mpa-bb636262 = { $p } Pa lies outside 0 to 0.3 MPa
density-72b9059b = density
pa-lies-outside-pa-to-52694b15 = { $p } Pa lies outside 611.213 Pa to 22.064 MPa absolute
is-not-in-the-table-363cb5f6 = { $other } is not in the table: name the gas or its mole fractions
molar-volume-b3e89c3e = molar volume
k-lies-more-than-k-d8197888 = { $t } K lies more than 15 K from the reference
no-diffusion-coefficient-is-known-505e4897 = { $other }: no diffusion coefficient is known here
no-table-is-known-here-6ff84ed1 = { $other }: no table is known here
the-composition-is-missing-1c6c501e = the composition is missing
is-no-mass-fraction-47d62c98 = { $x } is no mass fraction
a-pure-liquid-has-the-e6250064 = a pure liquid has the mass fraction 1
and-water-at-c-the-9a0d96cc = { $name } and water at { $celsius } °C: the table here does not reach there

## src/physics/leak.rs

a-module-s-flow-is-fae33d1e = a module's flow is missing
the-assembly-leaks-less-than-b5b81211 = the assembly leaks less than its parts: data inconsistent
detection-limit-s-denominator-1d62d2b1 = detection limit's denominator
ratio-of-heat-capacities-867b182f = ratio of heat capacities - 1
leak-flow-above-its-decision-29629d82 = leak flow above its decision threshold
a-discharge-coefficient-above-be45fcdf = a discharge coefficient above 1
a-molar-mass-above-kg-90fcc205 = a molar mass above 0.5 kg/mol: g/mol written as kg/mol?
downstream-de06a115 = downstream
upstream-13357fc0 = upstream
the-upstream-pressure-is-not-963c3638 = the upstream pressure is not above the downstream pressure
not-choked-fdf76a06 = not choked
pressure-ratio-against-the-flow-66ab79ed = pressure ratio { $x } against { $critical }: the flow is { $regime }
molar-mass-cb984ad4 = molar mass
discharge-coefficient-02818082 = discharge coefficient
leak-flow-31886086 = leak flow
viscosity-9554002c = viscosity
total-flow-9f6fc603 = total flow

## src/physics/mod.rs

must-be-6e91c9e4 = { $name } must be > 0
is-no-number-bc77305b = { $x } is no number
c-kelvin-written-as-celsius-3a4f789f = { $t } °C: kelvin written as Celsius?
k-is-below-k-a-8fe08a30 = { $t } K is below 100 K: a Celsius value written as kelvin?
k-lies-outside-k-to-eac12fd3 = { $t } K lies outside { $low } K to { $high } K

## src/plant/authority.rs

it-has-no-decision-with-d5249417 = it has no decision with an approval
nobody-is-named-who-approved-9d3e1dd3 = nobody is named who approved it
it-was-approved-before-it-5eedfa59 = it was approved { $time }, before it was found { $time2 }
approved-it-who-may-not-57fed369 = { $by } approved it, who may not approve deviations on { $time }
both-wrote-and-approved-it-e5832519 = { $by } both wrote and approved it
it-is-said-to-be-ac1e5eb4 = it is said to be approved { $time }, after the date of this dossier

## src/plant/lots.rs

adapter-e7cae794 = adapter
stainless-ring-d0401f6f = stainless ring
end-piece-4b0ecd30 = end piece
o-rings-8f1d37a4 = o-rings
support-layer-6bd0158d = support layer
core-dd5e607e = core
cage-9b07239d = cage
end-cap-3d196826 = end cap

## src/plant/recall.rs

from-on-5aaab9cc = from { $from } on
until-6ea5906e = until { $to }
from-to-31a64087 = from { $from } to { $to }
dispatch-note-a1060112 = { $customer }, { $name }, dispatch note { $note }
consigned-to-8b92bfec = consigned to { $customer }
in-stock-59faf4dc = in stock
whereabouts-not-recorded-75ca4051 = whereabouts not recorded
consigned-to-86e2ac9b = consigned to { $to }
by-cd345c1d = { $word } by { $deviation }
m-were-tested-or-trimmed-f64fd1eb = {" "}{ $trimmed } m were tested or trimmed and { $left } m are left, as the reconciliations say.
no-reconciliation-says-what-was-c623d46a = {" "}No reconciliation says what was trimmed and what is left.
m-received-m-in-these-54ab51c8 = { $received } m received, { $cut } m in these modules.{ $rest }
supplier-lot-df47c43e = supplier lot
run-of-seals-61202d51 = run of seals
machine-e103566e = machine
contains-c90c91c1 = contains { $modules }
and-more-cbe10e83 = { $named } and { $more } more
things-of-this-folder-cannot-2d225cfb = { $n } things of this folder cannot be read (`sealfolio review` names them), and what stands in them is missing here
m-were-cut-from-m-5783a960 = { $cut } m were cut from { $received } m received
m-in-modules-m-trimmed-4f6076e1 = { $all } m in modules, { $trimmed } m trimmed and { $left } m left are not the { $received } m received
says-that-of-went-into-2813298c = { $about }: { $id } says that { $used_in_this_lot } of { $material_lot } went into { $lot_id }, and its packs add up to { $cut } m
nothing-says-where-is-2a7b2fd8 = nothing says where { $id } is
stands-in-230a80e1 = { $id } stands in { $all }
and-31e9ae78 = {" "}and{" "}
in-assemblies-4753a78f = in assemblies, { $state }
no-record-says-what-it-5f6be7fb = No record says what it went into: whether anything of it was used is not known here.
nothing-of-it-was-consigned-c5de6c93 = Nothing of it was consigned: nobody outside need be told.

## src/plant/retest.rs

quality-must-explain-until-then-1cc82bc1 = Quality must explain; until then the result before it stands.
test-of-at-most-96c3cc3a = test { $what } of at most { $maximum_tests_per_item }.
reject-the-element-or-plan-574212c4 = Reject the element, or plan further tests beforehand and judge all of them.
no-retest-reason-code-a216e442 = no retest_reason_code.
a-pass-after-a-fail-9f8dbfbb = A pass after a fail without a cause is one of two readings of the same part; the result before it stands.
the-reason-is-none-that-cabf7781 = the reason { $reason } is none that the specification allows.
no-retest-deviation-allows-it-6b61258a = no retest_deviation allows it.
deviation-is-missing-045b8689 = deviation { $id } is missing.
add-it-until-then-the-4c47f02e = Add it; until then the result before it stands.
is-about-something-else-it-2d0f8c39 = { $id } is about something else: it names neither { $element } nor the test that is repeated.
does-not-say-when-the-4acf7e28 = { $id } does not say when the retest was authorised.
ran-authorised-permission-came-after-19f7ca21 = ran { $time }, authorised { $time2 }: permission came after the result was known.
no-retest-of-says-which-71382b97 = no retest_of says which test it repeats.
name-the-record-of-the-a20dc997 = Name the record of the test that is repeated.
the-evidence-in-names-no-4213ecde = the evidence in { $id }, "{ $evidence }", names no record or file of this folder.
name-the-record-in-which-bb75d96b = Name the record in which the cause shows, such as "wetting_flush_volume in" and the id of the test.
it-is-said-to-repeat-0855ed4f = it is said to repeat { $id }, which is a test of { $element }.
authorised-before-the-test-that-76947022 = authorised { $time }, before the test that it repeats had run.
nobody-is-named-who-allowed-2ffe3176 = nobody is named who allowed it.
allowed-it-who-may-not-16875271 = { $by } allowed it, who may not.
gives-the-cause-the-test-3e75f543 = { $id } gives the cause { $stated }, the test the reason { $reason }.
its-reason-is-incomplete-wetting-ba2f49c3 = its reason is incomplete wetting, and { $id2 } was flushed with { $wetting_flush_volume } as the method asks.
a-cause-must-show-in-1405b272 = A cause must show in a record; without one the result before it stands.
says-that-the-cause-is-3b8d7653 = { $id } says that the cause is known, and not what shows it.
does-not-say-whether-the-42f6861b = { $id } does not say whether the cause is known.
says-that-the-cause-is-45c924e3 = { $id } says that the cause is not known.
a-pass-after-a-fail-a8ddf5be = A pass after a fail without a cause is not accepted: reject, or plan further tests beforehand and judge all of them.

## src/record/common.rs

revision-is-c7d3cbd0 = revision is 0
revisions-count-from-14460b81 = Revisions count from 1.
instrument-export-57331456 = instrument export
manual-entry-56bd4eb7 = manual entry
transcription-452ff5bf = transcription
pass-7b7a7318 = pass
fail-1e53876d = fail
water-flux-c93bdeef = water flux
water-flow-cdfb3f78 = water flow
peel-force-50fdb154 = peel force
joint-pull-force-e75cf951 = joint pull force
pleat-count-338cf1f2 = pleat count
slit-width-ac79e9ef = slit width
hold-time-9b777401 = hold time
flow-recovery-96d3fc14 = flow recovery
straightness-6d326a38 = straightness

## src/record/folder.rs

is-not-a-folder-c08027bb = { $root } is not a folder
name-the-folder-that-holds-873f9022 = Name the folder that holds dossier.yaml.
is-a-compiled-dossier-211a926a = { $root } is a compiled dossier
sealfolio-verify-and-sealfolio-compare-359c0770 = `sealfolio verify` and `sealfolio compare` look at it, and its pages show every figure with its proof. The records that it was made of lie in data/records, some under other names than they had: name the folder that it was compiled from.
give-yourself-the-right-to-2ef22392 = Give yourself the right to read it.
has-no-dossier-yaml-5e4c15aa = { $root } has no dossier.yaml
name-the-folder-that-holds-616aa8bb = Name the folder that holds it, or begin one with `sealfolio new FOLDER`.
reading-files-25d148dc = reading files
split-it-into-several-files-ddfe26ff = Split it into several files; how records are spread over files means nothing.
cannot-be-read-039ec5a1 = cannot be read: { $error }
give-yourself-the-right-to-0612bccc = Give yourself the right to read it, or fetch it again; nothing in it is used until then.
reading-records-8a6bfc49 = reading records
cannot-be-read-d520b119 = cannot be read
has-a-name-that-is-78adfbe1 = has a name that is not UTF-8
rename-it-438cbd76 = Rename it.
has-a-character-in-its-bf363ae4 = has a character in its name that nobody sees or that moves others
is-a-link-which-is-21ba0bac = is a link, which is not followed
put-the-file-itself-there-99e5fa38 = Put the file itself there.
is-neither-a-file-nor-d99b4beb = is neither a file nor a folder
remove-it-b64c5bbc = Remove it.
holds-no-record-a14da58d = holds no record
write-one-or-remove-the-32d5b304 = Write one, or remove the file.
has-more-problems-from-here-2be95407 = has { $n } more problems from here on
mend-those-above-first-0540c0a3 = Mend those above first.
is-not-in-the-folder-787e4c2e = { $file } is not in the folder; { $other } has the digest that is stated for it.
if-that-is-the-file-9998e9a9 = If that is the file, write its name as the file bears it.
is-not-in-the-folder-14070eab = { $file } is not in the folder; { $other } is.
write-the-name-as-the-d522f543 = Write the name as the file bears it, with / between folders.
it-was-typed-wrongly-take-eb5d3365 = It was typed wrongly: take the digest again from where it was noted first, and mend the record.
which-is-no-sha-digits-73ca37a4 = "{ $stated }", which is no SHA-256 (64 digits 0 to 9 and a to f)
which-differs-from-digit-on-9aedf136 = { $short }…, which differs from digit { $digit } on

## src/record/kinds/assembly_build.rs

assembly-build-bdd6f275 = assembly build

## src/record/kinds/assembly_test.rs

assembly-test-60653e4b = assembly test

## src/record/kinds/calibration_record.rs

calibration-record-429b0a0c = calibration record

## src/record/kinds/cycle_claim.rs

cycle-claim-da9ade7d = cycle claim

## src/record/kinds/cycle_log.rs

operator-statement-e6b48cfc = operator statement
machine-counter-3559b1ba = machine counter
cycle-log-7f9bed63 = cycle log

## src/record/kinds/deviation.rs

nonconforming-product-4790766d = nonconforming product
test-invalid-92fe4716 = test invalid
exclusion-02fdf0db = exclusion
calibration-685d8527 = calibration
marking-4d928ea8 = marking
data-d872e2a5 = data
reject-8534cac6 = reject
hold-adc649b8 = hold
accept-after-retest-06e29c18 = accept after retest
concession-c54710e5 = concession
result-excluded-kept-visible-69318384 = result excluded, kept visible

## src/record/kinds/element_geometry.rs

forward-b45fa81a = forward
reverse-21506c05 = reverse
parts-have-no-ed3a60a3 = parts have no { $id }
materials-have-no-68f85bef = materials have no { $material }
element-geometry-c60c3521 = element geometry

## src/record/kinds/endurance_study.rs

endurance-study-2579f65f = endurance study

## src/record/kinds/flow_test.rs

new-28999611 = new
after-cycles-d5865f90 = after cycles
after-regeneration-bb43e974 = after regeneration
flow-test-ddbc323b = flow test

## src/record/kinds/intake_mapping.rs

intake-mapping-0d745ef3 = intake mapping

## src/record/kinds/layer_stack.rs

upstream-support-9e00a127 = upstream support
prefilter-56518ae0 = prefilter
downstream-support-95ab87ea = downstream support
layer-stack-8ee21df2 = layer stack

## src/record/kinds/lot_reconciliation.rs

in-assembly-63d2b2ea = in assembly
rejected-f67f6847 = rejected
destroyed-as-sample-64371236 = destroyed as sample
held-2471847e = held
lot-reconciliation-b7d2d715 = lot reconciliation

## src/record/kinds/marking_inspection.rs

marking-inspection-31f68fca = marking inspection

## src/record/kinds/material_lot.rs

accepted-1bc03140 = accepted

## src/record/kinds/measurement_study.rs

measurement-study-7d486762 = measurement study

## src/record/kinds/membrane_test.rs

membrane-test-b06afba4 = membrane test

## src/record/kinds/mod.rs

the-kind-of-record-5df5fba2 = The kind of record.

## src/record/kinds/module_test.rs

module-test-9df94773 = module test

## src/record/kinds/personnel_authorisation.rs

personnel-authorisation-ab1a3ac7 = personnel authorisation

## src/record/kinds/pleating_record.rs

pleating-record-6e41be84 = pleating record

## src/record/kinds/product_specification.rs

guarded-acceptance-597b996a = guarded acceptance
simple-acceptance-3133c7da = simple acceptance
guarded-rejection-108ee270 = guarded rejection
slit-6c8f30f7 = slit
pleat-pack-0a549b6e = pleat pack
product-specification-9769b7b9 = product specification

## src/record/kinds/release_statement.rs

release-statement-b58f7453 = release statement

## src/record/kinds/retention_challenge.rs

retention-challenge-7400d1ac = retention challenge

## src/record/kinds/seal_inspection.rs

seal-inspection-479d9a22 = seal inspection

## src/record/kinds/seal_run.rs

infrared-contact-free-cf66ce7e = infrared contact free
induction-heated-plate-99a57a1f = induction heated plate
side-seam-276e9fb4 = side seam
pack-to-end-cap-6a30cc40 = pack to end cap
module-to-module-22b91242 = module to module
a-sealed-item-names-neither-37a9ffab = a sealed item names neither assembly_id nor module_id
name-the-thing-that-was-21da6135 = Name the thing that was sealed.

## src/record/kinds/signature_policy.rs

signature-policy-50043fe9 = signature policy

## src/record/kinds/slitting_record.rs

slitting-record-baa23e4c = slitting record

## src/record/mod.rs

a-record-is-and-a-f493dbbf = a record is { $node }, and a map is due
begin-it-with-kind-df11f9f5 = Begin it with `kind: …`.
the-first-key-kind-is-1d202867 = the first key `kind` is missing
say-which-kind-of-record-5264a712 = Say which kind of record this is; `sealfolio schema` lists them.
required-field-id-is-missing-67296baf = required field id is missing
add-id-the-id-of-4e4db0d9 = Add `id:`, the id of this dossier.
is-revision-without-a7a2e1fb = { $id } is revision { $revision } without { $name }
from-revision-on-a-record-8ca5bae6 = From revision 2 on a record says what it replaces and why.

## src/record/quantity.rs

this-field-is-a-gauge-7db0b542 = this field is a gauge pressure or a pressure difference
below-k-a-celsius-value-04e7fb63 = below 100 K: a Celsius value written as kelvin?
this-field-is-a-temperature-da20c70c = this field is a temperature difference; write it in K
an-uncertainty-needs-its-coverage-796c826a = an uncertainty needs its coverage factor: ± 0.05 bar (k = 2)
the-coverage-factor-is-written-4369690b = the coverage factor is written (k = 2)
the-uncertainty-is-not-a-ab18b8d8 = the uncertainty is not a positive difference of the same kind as the value
write-with-its-unit-such-b7beb3fd = Write { $what } with its unit, such as "… { $what2 }".
is-and-is-due-63095645 = { $name } is { $node }, and { $what } is due
has-no-unit-8ec21ec5 = { $name } { $what } has no unit
is-not-c249a165 = { $name } "{ $what }" is not { $what2 }
is-not-believable-for-this-2b5f5f11 = { $name } "{ $what }" is not believable for this field
check-the-number-and-its-2326566a = Check the number and its unit.
the-two-ends-of-are-589eca0f = the two ends of "{ $what }" are different kinds of quantity
the-interval-ends-before-it-a2823e6d = the interval "{ $what }" ends before it begins
the-tolerance-of-is-not-8c7c73a2 = the tolerance of "{ $what }" is not a width of the same kind
is-not-a-limit-c213bfc0 = "{ $what }" is not a limit
write-x-a-b-or-d52f1b61 = Write "<= x", ">= x", "A .. B" or "target ± tolerance", each with units.
write-a-number-a-blank-8e87fe93 = Write a number, a blank and a unit.

## src/record/read.rs

key-is-not-known-64942ad2 = key "{ $key }" is not known{ $hint }
correct-the-key-nothing-of-dd0474e3 = Correct the key; nothing of what it says is used until then.
is-blank-b2a7a3da = { $name } is blank
fill-it-in-or-say-25923b07 = Fill it in, or say why it is not there where the handbook allows that.
required-field-is-missing-0fc53c8f = required field { $name } is missing
add-the-record-is-not-8ab7eb21 = Add `{ $name }:`; the record is not used until then.
is-and-a-map-is-29b0e492 = { $name } is { $node }, and a map is due
write-its-fields-as-key-046536d1 = Write its fields as `key: value`.
is-d90afd8b = { $name } is { $node }{ $hint }
it-is-one-of-c35e8a9d = It is one of: { $what }.
is-written-without-quotes-it-5ced9843 = { $name } is written { $what } without quotes; it is read as the text "{ $what }" here and as { $other } elsewhere
write-ffdbef59 = Write { $name }: "{ $what }".
is-written-without-quotes-which-57e2853e = { $name } is written { $what } without quotes, which a reader may take for a number or a truth value
is-and-a-text-is-8b2aaca9 = { $name } is { $node }, and a text is due
write-a-text-in-quotes-fd2dd058 = Write a text in quotes.
is-and-a-whole-number-16f83628 = { $name } is { $node }, and a whole number is due
write-digits-only-without-quotes-d0c851e5 = Write digits only, without quotes and without a leading zero.
write-a-decimal-number-without-e6af281e = Write a decimal number without a unit.
is-and-a-number-is-e22aacb7 = { $name } is { $node }, and a number is due
write-a-decimal-number-21639f49 = Write a decimal number.
is-and-true-or-false-f2bd057f = { $name } is { $node }, and true or false is due
write-true-or-false-without-edbefee7 = Write true or false without quotes; yes and no are texts.
is-and-a-time-is-13b18333 = { $name } is { $node }, and a time is due
write-a-time-with-its-4d03fc65 = Write a time with its offset, such as 2026-03-20T10:24:00+01:00; a local time alone cannot be put in order.
is-and-a-date-is-a818a74c = { $name } is { $node }, and a date is due
write-year-month-and-day-6187e2ea = Write year, month and day, as in "2026-03-20".
is-and-a-list-is-cfd3626c = { $name } is { $node }, and a list is due
write-its-members-in-brackets-c4879016 = Write its members in brackets or with a dash each.

## src/record/text.rs

is-not-utf-from-here-8b34fca3 = is not UTF-8 from here on
has-a-tab-character-here-b75c0fae = has a tab character here
use-blanks-a52e427f = Use blanks.
delete-it-3bc2a0c7 = Delete it.
has-a-line-of-more-68c50ecf = has a line of more than { $what } MiB
break-it-at-commas-and-4e1a9b92 = Break it at commas and brackets.

## src/record/trace.rs

is-not-utf-or-not-465f1c5e = is not UTF-8 or not CSV here
is-not-a-csv-file-2bc60cfa = is not a CSV file in UTF-8
export-it-again-from-the-731ffb86 = Export it again from the instrument.
has-a-point-although-the-8f55323d = `{ $field }` has a point although the record says that the decimal sign is `{ $decimal }`
export-the-columns-that-the-95a5ba31 = Export the columns that the record needs.
is-empty-5e7c1d8c = is empty
has-one-column-whose-name-8225266d = has one column, whose name has { $other }: its fields are separated otherwise than by { $separator }
state-field-separator-beside-the-03cb9866 = State field_separator beside the file in the record, and decimal_separator where it is a comma.
name-the-unit-in-the-0ec99212 = Name the unit in the column: time_s, pressure_mbar_gauge, gas_temperature_c, gas_flow_ml_min, temperature_c, pressure_mbar_abs; or timestamp.
column-does-not-say-its-793533ab = column "{ $name }" does not say its unit
has-two-columns-of-f42c1694 = has two columns of { $name }
leave-the-one-that-the-6530e745 = Leave the one that the test was judged by, and keep the raw file.
the-first-column-is-not-f610d1af = the first column is not a time
begin-with-time-s-or-9175f77c = Begin with time_s or timestamp.
split-the-trace-2debcc1d = Split the trace.
is-there-a-decimal-comma-16e982d4 = ; is there a decimal comma?
row-has-fields-expected-eadc46cf = row has { $count } fields, { $columns } expected{ $hint }
export-again-with-decimal-point-2d6f73eb = Export again with decimal point, or state decimal_separator and field_separator in the record; nothing is guessed.
export-times-with-their-offset-864691ba = Export times with their offset: when clocks are put back, local time from 02:00 to 03:00 comes twice and no order can be made of it. Keep the raw file.
export-the-trace-again-do-29004ee9 = Export the trace again; do not mend it by hand.
time-does-not-rise-in-a1cdf510 = time does not rise in this row
rows-are-never-sorted-find-042062b2 = Rows are never sorted: find out why the order is broken.
has-rows-at-least-are-e4f6a07a = has { $count } rows; at least 3 are needed
export-the-whole-trace-4301ed6c = Export the whole trace.

## src/record/yaml.rs

the-number-octal-8ea4fe04 = the number { $octal } (octal)
a-number-without-its-leading-9bc58875 = a number without its leading zero
the-number-4a3bfd8b = the number { $bare }
a-number-in-base-0bfffd55 = a number in base 60
the-number-base-66f28e8a = the number { $sum } (base 60)
a-moment-in-a-time-cec58f2a = a moment, in a time zone of their own
a-list-f2f9b28c = a list
a-map-bf43148a = a map
the-number-03b9cb19 = the number { $what }
the-truth-value-f0f3fe2e = the truth value { $what }
without-quotes-5b48c060 = { $what } without quotes
mend-the-line-the-rest-b58258f9 = Mend the line; the rest of the file is not used until then.
two-readers-do-not-agree-f79a3e92 = two readers do not agree on this file
put-quotes-around-unusual-text-cf1aecb4 = Put quotes around unusual text.
is-not-yaml-0f2318eb = is not YAML: { $error }
uses-which-records-leave-out-27354a5f = uses { $what }, which records leave out
write-the-value-out-where-9af2fd6b = Write the value out where it is needed.
an-alias-name-5da80992 = an alias (*name)
an-anchor-name-82b081bf = an anchor (&name)
a-tag-name-a46356ef = a tag (!name)
has-more-than-values-5dfab4c3 = has more than { $what } values
has-a-text-of-more-cd153b6c = has a text of more than { $what } KiB
put-it-into-an-attachment-612305b7 = Put it into an attachment.
ends-before-what-follows-a-1a626b38 = { $text } ends before { $lost }: what follows a blank and a # is a remark
put-quotes-around-the-whole-6cef49b3 = Put quotes around the whole text; or, if it is a remark, a blank behind the #.
is-nested-more-than-deep-7e93eaf4 = is nested more than { $what } deep
no-record-needs-that-look-aa7a5b84 = No record needs that; look for a stray bracket.
two-readers-do-not-agree-155fa211 = two readers do not agree on what is written here
put-quotes-around-the-text-1d6f30a8 = Put quotes around the text.
readers-disagree-508cc651 = readers disagree
a-value-6d8a6abd = a value
has-a-key-that-is-166a011a = has a key that is not a word
keys-are-the-words-of-2c4cde57 = Keys are the words of the handbook.
key-stands-twice-first-in-bc9104bf = key "{ $what }" stands twice (first in line { $first })
keep-the-one-that-is-0b69836a = Keep the one that is true; the record is not used until then.

## src/seal/check.rs

missing-is-listed-and-not-eb0a793b = missing: { $path } is listed and not there
changed-has-other-bytes-than-b652a6b0 = changed: { $path } has other bytes than those that were listed
extra-is-there-and-not-ae4e78f9 = extra: { $path } is there and not listed
not-part-of-the-dossier-4150157f = not part of the dossier: { $path } (left by an operating system)
unusable-667ba6a5 = unusable: { $path } { $why }
is-not-in-the-encoding-172a55ba = is not in the encoding { $name }
is-not-there-07f15b6a = is not there
is-no-declaration-of-a-05f63fba = is no declaration of a version of BagIt that is known here
names-no-encoding-that-is-d3fb8adf = names no encoding that is known here
has-more-than-its-two-a6880858 = has more than its two lines
is-of-a-hash-function-3f0e938e = is of a hash function that is not known here
line-is-not-a-digest-3924966a = line { $n } is not a digest and a path
line-names-a-path-that-d748f5a1 = line { $n } names a path that does not belong there
line-does-not-begin-with-0b3c6f42 = line { $n } does not begin with a digest of { $digits } digits
line-names-a-file-a-8609bfc8 = line { $n } names a file a second time
line-names-a-file-that-f1b5a6aa = line { $n } names a file that no manifest lists
line-is-no-label-with-19c1fdb8 = line { $n } is no label with a value
states-a-payload-of-bytes-5811b722 = states a payload of { $stated } (bytes.files), and there is { $bytes }.{ $files }

## src/simulation.rs

it-has-no-uncertainty-26c7181b = it has no uncertainty
monte-carlo-jcgm-draws-seed-120379a6 = Monte Carlo (JCGM 101:2008), { $trials } draws, seed { $what }
mean-standard-deviation-07bdd667 = {" "} mean { $mean }, standard deviation { $width }
drawn-d151e0c7 = drawn
linear-d00594c0 = linear
to-6793353b = {" "} 95.45 % { $name } { $low } to { $high }
the-ends-agree-within-the-ef669486 = {" "} The ends agree within { $tolerance }: the linear result is good enough.
the-ends-differ-by-more-4229981c = {" "} The ends differ by more than { $tolerance }, half of the second digit of u: the verdict stands on the linear result all the same, so where the limit lies near look at the drawn interval before you sign.

## src/stats/capability.rs

no-limit-capability-is-held-e5fc883d = no limit: capability is held against one
is-no-standard-deviation-it-07f3b80d = { $sd } is no standard deviation: it is below zero
all-values-are-equal-the-c33c6625 = all values are equal: the resolution of the instrument hides the process

## src/stats/comparison.rs

every-group-has-one-value-ab7d64f3 = every group has one value: there is no spread within groups to compare with
values-within-groups-are-equal-36bea74a = values within groups are equal: the resolution of the instrument hides their spread
the-values-of-one-group-50901106 = the values of one group are equal
the-deviations-within-every-group-aad9de7e = the deviations within every group are equal: two values of a group always have equal ones
all-values-are-equal-47590d28 = all values are equal
every-rater-must-rate-every-084576e7 = every rater must rate every target
the-targets-do-not-differ-0a11f81a = the targets do not differ
all-values-are-equal-there-da924038 = all values are equal: there is no scatter to hold the difference against
values-stand-beside-618a6064 = { $count } values stand beside { $b }
the-lower-margin-is-not-6288a608 = the lower margin { $low } is not below the upper { $high }

## src/stats/control.rs

the-subgroups-differ-in-size-67b3bc72 = the subgroups differ in size
counts-stand-beside-sizes-7abc87fc = { $count } counts stand beside { $n } sizes
a-sample-of-0577e247 = a sample of { $n }
failed-of-025f6f9b = { $d } failed of { $n }
counts-stand-beside-extents-7b0ce06f = { $count } counts stand beside { $extent } extents
an-extent-of-247c926d = an extent of { $x }
is-no-standard-deviation-d742205d = { $s } is no standard deviation
a-standard-deviation-of-zero-04a0e3e3 = a standard deviation of zero
a-weight-of-with-limits-04af3b5e = a weight of { $weight } with limits at { $width }
a-slack-of-with-a-6a10250d = a slack of { $slack } with a limit at { $limit }

## src/stats/distribution.rs

is-no-number-of-degrees-a5ca6fd9 = { $degrees } is no number of degrees of freedom
are-no-degrees-of-freedom-91dbd93f = { $between }, { $within } are no degrees of freedom
are-no-parameters-of-a-3f48e9c3 = { $a }, { $b } are no parameters of a beta distribution
the-quantile-lies-further-out-27dc8500 = the quantile lies further out than it can be computed

## src/stats/endurance.rs

separate-lines-1448b273 = separate lines
common-slope-f5d1969b = common slope
a-course-has-not-as-b5c86c14 = a course has not as many values as cycles
a-course-stands-at-one-1c357209 = a course stands at one number of cycles: it has no slope
one-course-there-is-nothing-1bf10188 = one course: there is nothing to pool
every-course-lies-on-its-84d31074 = every course lies on its line exactly: there is no scatter to test against
a-confidence-of-supports-nothing-727885ba = a confidence of { $confidence } supports nothing; more than 0.5 is due
the-bound-lies-beyond-the-f118287d = the bound lies beyond the limit from the start
no-course-332063e3 = no course
the-bound-never-meets-the-63d55584 = the bound never meets the limit: the data do not limit the number of cycles

## src/stats/gauge.rs

the-study-is-not-balanced-46d235ca = the study is not balanced: each operator must test each element equally often
elements-operators-repeats-at-least-0b047f4b = { $a } elements, { $b } operators, { $n } repeats: at least 2 of each are needed
all-values-are-equal-there-0395a9dc = all values are equal: there is no spread to take apart

## src/stats/life.rs

lives-stand-beside-ends-bb1cb07c = { $count } lives stand beside { $events } ends
a-life-of-lives-are-0c8aa5b1 = a life of { $t }: lives are above zero
nothing-failed-a-life-is-fec58132 = nothing failed: a life is bounded from below only, with an assumed shape
all-failures-stand-at-the-f61889e0 = all failures stand at the longest time: no shape fits them
failures-of-elements-80db5011 = { $r } failures of { $count } elements
a-shape-of-ff24fb83 = a shape of { $shape }

## src/stats/mod.rs

is-no-finite-number-727aa146 = { $x } is no finite number
values-and-at-least-are-bce05dee = { $found } values, and at least { $least } are needed
is-no-probability-between-and-25face23 = { $p } is no probability between 0 and 1
is-no-count-it-is-fd5277a7 = { $x } is no count: it is below zero
is-no-count-it-is-c2757f6b = { $x } is no count: it is no whole number
group-and-at-least-are-6f243fed = { $count } group, and at least 2 are needed to compare

## src/stats/normality.rs

all-values-are-equal-the-36e19132 = all values are equal: the resolution of the instrument hides their spread
values-the-test-is-worked-0079cdbb = { $count } values: the test is worked out for 5000 at most
no-outlier-is-looked-for-e8593f2b = no outlier is looked for

## src/stats/order.rs

a-part-of-no-value-f5c808c0 = a part of no value
the-series-cannot-be-split-71ddba19 = the series cannot be split
no-value-lies-above-the-8ed44aab = no value lies above the median: there are no runs to count

## src/stats/proportion.rs

of-are-no-count-09bce430 = { $x } of { $n } are no count
no-sample-of-a-countable-4380bd86 = no sample of a countable size proves it
an-extent-of-ae2655cd = an extent of { $extent }

## src/stats/regression.rs

values-of-x-stand-beside-07f171b2 = { $count } values of x stand beside { $y } of y
all-points-stand-at-one-a100ddc7 = all points stand at one x: no line can be laid through them
the-columns-are-not-as-0380a959 = the columns are not as long as the values
the-regressors-are-equal-or-15abfca7 = the regressors are equal or depend on each other: their shares cannot be told apart
the-regressors-depend-on-each-d7829233 = the regressors depend on each other so nearly that no digit of their shares would be sure
a-degree-of-fits-nothing-11d3bcca = a degree of 0 fits nothing
different-x-no-polynomial-of-a8b49106 = { $distinct } different x: no polynomial of degree { $degree } can be laid through them
the-rows-differ-in-length-6f40ffb4 = the rows differ in length, or are not as many as the values
different-x-among-points-more-239282be = { $m } different x among { $n } points: more different x than coefficients, and a repeated one, are needed
repeats-at-one-x-are-8251d2a3 = repeats at one x are equal: the resolution of the instrument hides their scatter
all-values-are-equal-there-6311a84d = all values are equal: there is nothing to rise or fall

## src/stats/runs.rs

one-point-beyond-three-standard-d226548f = one point beyond three standard deviations
nine-points-in-succession-on-3b41b5d3 = nine points in succession on one side of the centre
six-points-in-succession-rising-e420a548 = six points in succession rising, or falling
fourteen-points-in-succession-alternating-c3955127 = fourteen points in succession alternating up and down
two-of-three-points-in-756b182f = two of three points in succession beyond two standard deviations on one side
four-of-five-points-in-04171d10 = four of five points in succession beyond one standard deviation on one side
fifteen-points-in-succession-within-7afbd188 = fifteen points in succession within one standard deviation
eight-points-in-succession-outside-336dc878 = eight points in succession outside one standard deviation
is-no-standard-deviation-to-060ba502 = { $sigma } is no standard deviation to count in
a-window-of-no-point-d6087e36 = a window of no point

## src/stats/sampling.rs

a-sample-of-from-a-aea0830d = a sample of { $n } from a lot of { $lot }
failing-units-in-a-lot-4ec1fd65 = { $failing } failing units in a lot of { $lot }
is-no-share-between-and-f6253958 = { $quality } is no share between 0 and 1
a-plan-that-accepts-with-fada7a4f = a plan that accepts with { $c } failures of { $n } rejects nothing
and-are-no-qualities-8cff6570 = { $good } and { $bad } are no qualities
the-quality-to-reject-is-55f243a3 = the quality to reject, { $bad }, is not worse than the one to accept, { $good }
no-sample-that-could-be-fe933749 = no sample that could be drawn meets both risks; inspect every unit, or set the two qualities further apart
no-share-between-and-is-4d067ce7 = no share between 10^-9 and 1 - 10^-9 is accepted with that probability
no-sample-of-a-countable-7e218b9d = no sample of a countable size meets both risks

## src/stats/summary.rs

all-values-are-equal-there-a4d9683f = all values are equal: there is no spread to be correlated

## src/stats/tolerance.rs

an-interval-leaves-out-at-a40cc342 = an interval leaves out at least one end
no-sample-of-a-countable-d22e5d8a = no sample of a countable size reaches it

## src/trend/analysis.rs

the-values-do-not-look-ccde2e0e = the values do not look normal: an index built on a normal distribution would mislead

## src/trend/groups.rs

pleating-machine-686dd0e6 = pleating machine
operator-fbd4eefd = operator
analysis-of-variance-spreads-alike-0b5ffa20 = analysis of variance (spreads alike by Brown and Forsythe's test, values not seen to be other than normal)
analysis-of-variance-the-groups-0ddbe25e = analysis of variance; the groups are too small to compare their spreads, which are taken to be alike
welch-s-analysis-of-variance-2bf8e037 = Welch's analysis of variance, because the spreads of the groups differ (Brown and Forsythe's test)
kruskal-and-wallis-s-test-227eb58a = Kruskal and Wallis's test by ranks, because the spreads of the groups differ and one of them has none
kruskal-and-wallis-s-test-7d240dbb = Kruskal and Wallis's test by ranks, because the values do not look normal within their groups
fewer-than-two-groups-have-e5296378 = fewer than two groups have more than one value

## src/trend/mod.rs

bubble-point-fd39eb29 = Bubble point
of-assemblies-of-8da393c3 = of assemblies of { $length }
in-f37a6813 = in { $gas }
unknown-length-f4c431f3 = unknown length
of-assemblies-907a2a08 = of assemblies
of-modules-78dfdd99 = of modules
of-seal-runs-bb58b6d5 = of seal runs
of-rolls-6c467ab0 = of rolls
all-products-45c22350 = all products
frozen-d6571f55 = frozen { $date }: { $basis }
more-with-a-known-cause-0eda7c6f = {" "}(1 more with a known cause set aside)
more-with-known-causes-set-db6773f9 = {" "}({ $k } more with known causes set aside)
all-values-within-the-control-2d9fca99 = all { $n } values within the control limits{ $aside }
of-values-beyond-the-control-c6e8a8a6 = { $k } of { $n } values beyond the control limits{ $aside }
value-62acf02d = 1 value
values-dd13ebbf = { $n } values
too-few-to-speak-of-6f53e77f = { $values }: too few to speak of limits or drift; { $what } are needed
values-without-control-limits-a8a8bf28 = { $n } values without control limits{ $aside }
a-drift-or-a-shift-3f0b46ec = a drift or a shift stands out
no-drift-stands-out-c4e867ae = no drift stands out
it-differs-by-8b474db2 = it differs by { $differ }
ppk-at-least-with-confidence-666e7f64 = Ppk { $nearest } (at least { $proven } with 95 % confidence)

## src/verdict.rs

k-from-degrees-of-freedom-b18fe9b3 = k = { $k } from { $degrees } degrees of freedom
above-1b74d6eb = above 99.99 %
below-39205c80 = below 0.01 %
