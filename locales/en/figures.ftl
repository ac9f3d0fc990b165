# Written from the sources by `cargo run --example words`; not to be edited.

## src/figure.rs

stated-with-the-value-fbab62e8 = stated with the value
no-product-specification-rules-this-476ca4e9 = no product_specification rules this record
this-record-is-no-test-a6533f9b = this record is no test of an element
the-limit-of-is-of-79b0c4d6 = the limit { $demand } of { $quantity } is of another kind of quantity
no-assembly-build-says-how-54bf6036 = no assembly_build says how many modules the assembly has
to-42454824 = to
the-uncertainty-of-cannot-be-f961523f = the uncertainty of { $input } cannot be carried through: the formula has no slope there

## src/figure/computed.rs

values-to-49b1089d = { $count } values, { $first } to { $last }
rows-the-first-the-last-55154a51 = { $count } rows, the first { $first }, the last { $last }
values-13ac2495 = { $input } ({ $count } values)

## src/figures/bubble_point.rs

bubble-point-criterion-is-missing-9dae019f = bubble_point_criterion is missing in the specification
bubble-point-criterion-does-not-9beca4e1 = bubble_point_criterion does not say "… exceeds N x the diffusive line fitted below N mbar"
bubble-point-of-an-element-c6321189 = Bubble point of an element
the-gauge-pressure-at-which-76c1ea6e = The gauge pressure at which the gas flow through the wetted element leaves its diffusive line by the multiple that the specification states. The line is fitted below the pressure that the specification states.
a-ramp-slow-enough-for-d2701ae3 = A ramp slow enough for the flow to settle at each step; readings on both sides of the crossing.
criterion-of-the-product-specification-c67a1cac = Criterion of the product specification
least-squares-line-textbook-a3765010 = Least-squares line (textbook)
the-gauge-pressure-of-each-08a41daa = the gauge pressure of each row of the ramp
the-gas-flow-of-each-11625c33 = the gas flow of each row of the ramp
the-multiple-of-the-diffusive-c8085ee9 = the multiple of the diffusive line
the-pressure-below-which-the-7c249f4a = the pressure below which the line is fitted

## src/figures/bubble_point_decline.rs

this-record-is-no-endurance-361a83f2 = this record is no endurance_study
change-of-the-bubble-point-40c8b9d2 = Change of the bubble point per cycle
slope-of-the-straight-line-0eda6591 = Slope of the straight line through the bubble points of one element against the cycles that it had: below zero it loses bubble point. Several results of one element are not independent of each other, so each element has a line of its own.
at-least-three-checkpoints-all-a8c93700 = At least three checkpoints, all from before any failure.
least-squares-3c620dc6 = Least squares
the-cycles-before-each-test-739a7cf1 = the cycles before each test
the-bubble-point-of-each-2668d39e = the bubble point of each test

## src/figures/bubble_point_drop.rs

bubble-point-under-that-of-3f9e9556 = Bubble point under that of the weakest module
the-smallest-bubble-point-of-c15a66f0 = The smallest bubble point of the modules minus that of the assembly. An assembly cannot be tighter than its weakest module; if it is looser, a join or a pack was damaged on the way.
same-liquid-and-gas-the-5ff18001 = Same liquid and gas; the last test of each module.
largest-opening-decides-capillary-law-ffe3aada = Largest opening decides (capillary law, textbook)
the-bubble-point-of-each-dac129a2 = the bubble point of each module
the-bubble-point-of-the-d8b0c682 = the bubble point of the assembly

## src/figures/challenge_density.rs

this-record-is-no-retention-7f6690c9 = this record is no retention_challenge
there-is-no-such-run-70eb66b4 = there is no such run
challenge-level-5d3771d8 = Challenge level
organisms-of-the-challenge-over-e59bf391 = Organisms of the challenge over the exposed area. A claim can only be as strong as the challenge behind it.
the-area-through-which-the-607aae08 = The area through which the suspension ran.
definition-level-per-area-as-fb758936 = Definition; level per area as in ASTM F838
the-organisms-of-the-challenge-bce4b274 = the organisms of the challenge
the-exposed-area-2a7a4365 = the exposed area

## src/figures/clearance_cold.rs

clearance-when-cold-24ba615b = Clearance when cold
clearance-on-the-diameter-that-83c5b6ac = Clearance on the diameter that is left between an inner and an outer part in the coldest state that the record names: each diameter grows by its own coefficient. On cooling, a plastic outer part shrinks onto a metal inner one.
dimensions-at-the-reference-temperature-b6dc58ef = Dimensions at the reference temperature, uniform temperature, below softening; creep, crystallisation and moisture are not in it. A coefficient is taken over the range used, as a rectangular distribution between its lowest and highest value; so is a dimension within its tolerance.
linear-thermal-expansion-textbook-d2d6378f = Linear thermal expansion (textbook)
rectangular-distribution-of-a-tolerance-1af40312 = Rectangular distribution of a tolerance: JCGM 100:2008, 4.3.7
the-diameter-of-the-outer-ce3b16e5 = the diameter of the outer part
the-expansion-of-the-outer-cf02e3de = the expansion of the outer part's material
the-coldest-temperature-dc4744e0 = the coldest temperature
the-temperature-of-the-dimensions-21174d4d = the temperature of the dimensions
the-diameter-of-the-inner-804e0d48 = the diameter of the inner part
the-expansion-of-the-inner-42edbf0d = the expansion of the inner part's material

## src/figures/clearance_hot.rs

this-record-is-no-element-dbb65526 = this record is no element_geometry
the-record-has-no-such-640e2e3c = the record has no such fit
the-expansion-of-ends-before-d824a3e5 = the expansion of { $id } ends before it begins
softens-at-84b567f5 = { $id } softens at { $soft }
to-52434f50 = { $low } to { $high }
clearance-when-hot-17e15900 = Clearance when hot
clearance-on-the-diameter-that-e281ae72 = Clearance on the diameter that is left between an inner and an outer part in the hottest state that the record names: each diameter grows by its own coefficient. A stainless ring must stay apart from the plastic, and a pack from its cage, through every steam cycle. Polypropylene grows about nine times as much as stainless steel.
the-hottest-temperature-15963881 = the hottest temperature

## src/figures/collapse_margin.rs

the-record-has-no-such-a918bec0 = the record has no such strength
no-claim-for-allows-a-154103b3 = no claim for { $product } allows a pressure difference in this direction up to this temperature
collapse-margin-db212a1c = Collapse margin
the-pressure-difference-that-the-29ccb4f9 = The pressure difference that the element withstood in a test at its temperature, over the highest that a claim allows in the same direction up to that temperature. Forward pressure loads the core, reverse pressure the cage. Plastic that bears five bar when cold may bear less than one in steam, so each temperature stands for itself.
strength-by-test-not-by-8c7460a8 = Strength by test, not by calculation; the test temperature at or above that of the claim.
ratio-of-strength-to-load-4b9f7db3 = Ratio of strength to load (textbook); strength by test: common practice, no source
the-pressure-difference-withstood-fcabcc15 = the pressure difference withstood
the-highest-pressure-difference-claimed-dd6ff2a7 = the highest pressure difference claimed

## src/figures/cycle_reliability.rs

reliability-shown-by-a-study-37398089 = Reliability shown by a study
the-share-of-elements-that-57eaf6dd = The share of elements that at least survives the cycles of the study, with its confidence: three elements without a failure show no more than 37 % at 95 %. The number is small because the study is, and it is shown for that reason.
elements-that-stand-for-the-3261c319 = Elements that stand for the product; one that was taken out early for another reason counts neither as tested nor as failed.
exact-binomial-bound-clopper-and-f6d27bfe = Exact binomial bound, Clopper and Pearson 1934
the-elements-tested-to-the-3b61a0e1 = the elements tested to the end or to failure
the-elements-that-failed-cdcdfe63 = the elements that failed
the-one-sided-confidence-3d23cbb8 = the one-sided confidence

## src/figures/cycles_left.rs

cycle-claim-revision-is-missing-046f7a67 = cycle_claim { $id } revision { $revision } is missing
the-claim-is-no-cycle-10379f0e = the claim is no cycle_claim
claim-says-nothing-about-7f563659 = claim { $id } says nothing about { $part }
cycles-left-of-the-claim-d9f0ebf3 = Cycles left of the claim
cycles-that-the-maker-claims-bab052ab = Cycles that the maker claims for the treatment minus those used. Below zero the element is out of its claim and must be retired: the claim says nothing about the next cycle.
each-treatment-on-its-own-101188a3 = Each treatment on its own, under the combination rule of the claim.
count-e1e7b894 = Count
the-cycles-claimed-a3b40592 = the cycles claimed
the-cycles-used-f4dcc1e4 = the cycles used

## src/figures/cycles_proven.rs

cycles-proven-by-a-whole-246c6e56 = Cycles proven by a whole trace
cycles-whose-temperature-trace-is-51a27b8b = Cycles whose temperature trace is there, has no gap and, of steam, reaches the hold temperature, and those carried forward that had one by what the plant says. Only these prove that the element was treated; the others count against life all the same.
whole-numbers-b436ce7c = Whole numbers.
the-cycles-carried-forward-with-4d935512 = the cycles carried forward with traces
each-cycle-with-a-whole-aa7f0347 = each cycle with a whole trace

## src/figures/cycles_supported.rs

claim-a87cbda9 = ≥ { $cycles_claimed } (claim)
cycles-supported-by-a-study-da89b4bb = Cycles supported by a study
the-fewest-cycles-that-the-75cc395e = The fewest cycles that the results of any element of the study support: a claim speaks of every element, so the weakest decides.
elements-of-the-product-treated-911af3e3 = Elements of the product, treated as the claim says.
definition-0d4aaec0 = Definition
the-cycles-that-each-element-24d955fb = the cycles that each element supports

## src/figures/cycles_used.rs

this-record-is-no-cycle-f9fbd3aa = this record is no cycle_log
cycle-e33c7498 = cycle { $sequence }
cycles-used-758cfeb3 = Cycles used
every-cycle-that-the-plant-a37b1794 = Every cycle that the plant reports, with or without evidence, and those carried forward: all count against life.
whole-numbers-reported-by-the-75ccd307 = Whole numbers; reported by the customer, not verified by the maker.
the-cycles-carried-forward-2ca7595c = the cycles carried forward
each-cycle-of-the-log-5c619f0a = each cycle of the log

## src/figures/diffusive_flow.rs

was-not-measured-d0c31492 = { $quantity } was not measured
is-missing-9c78a22c = { $name } is missing
the-trace-is-missing-a07be25b = the trace is missing
mbar-the-trace-is-absolute-caba293e = 0 mbar: the trace is absolute
the-trace-is-missing-or-9ba36ea4 = the trace { $file } is missing or cannot be read
the-trace-has-no-column-13478243 = the trace { $file } has no column { $begins }_…
the-trace-is-in-absolute-15af85f6 = the trace is in absolute pressure and the test states no atmospheric_pressure
the-pressure-of-the-room-6d8394d6 = the pressure of the room
there-is-no-value-6135a26b = there is no value
scatter-of-the-rows-e292d2fe = scatter of the rows
of-rows-3382e658 = of { $count } rows
is-not-above-zero-e23a206d = { $what } is not above zero
the-limit-holds-for-and-961f110e = the limit holds for { $due }, and the test names no gas
the-limit-holds-for-and-2d42a8c5 = the limit holds for { $due }, and the test was made with { $used }
diffusive-flow-76d05060 = Diffusive flow
gas-that-dissolves-in-the-5076b02c = Gas that dissolves in the wetting liquid of an intact membrane and passes it, found from the loss of pressure of a closed gas volume upstream. The slope of p/T over the whole trace is used, so that gas temperature is accounted for; the value is counted at the reference conditions of the test. δ_p and δ_T are the unknown errors of the pressure change and of the gas temperature drift: their best estimate is zero, their uncertainties are those of the specification. δ_s is the error that the scatter of the rows about their line leaves in the pressure change: its uncertainty is the standard error of the fitted slope (n − 2 degrees of freedom) over the measurement time. Where a contribution of the specification already contains that scatter it is counted twice, which is the safe side.
ideal-gas-off-for-nitrogen-74cffd43 = Ideal gas (0.13 % off for nitrogen at 2.7 bar absolute); a closed volume; complete wetting; at least three rows. The volume is the one that stood wetted and drained as in the test. Where no temperature was recorded with the trace, the gas temperature of the record is taken as constant.
ideal-gas-law-in-a-890f2aa8 = Ideal gas law in a closed volume (textbook)
its-use-as-a-test-c2d95556 = Its use as a test of wetted filters: common practice, no source
the-closed-gas-volume-upstream-ea08e9f2 = the closed gas volume upstream
the-reference-temperature-f608fff7 = the reference temperature
the-reference-pressure-1dd1fad0 = the reference pressure
the-unknown-error-of-the-140629f0 = the unknown error of the pressure change over the measurement
the-unknown-error-that-the-3f0d3b95 = the unknown error that the scatter of the rows about their line leaves in the pressure change
the-gauge-pressure-of-each-eea98d3b = the gauge pressure of each row of the trace
the-absolute-pressure-of-the-f805dc89 = the absolute pressure of the room
the-unknown-error-of-the-b243a62b = the unknown error of the gas temperature drift over the measurement
the-gas-temperature-of-each-fe060218 = the gas temperature of each row of the trace
the-measurement-time-8ebab459 = the measurement time
the-time-of-each-row-a489a702 = the time of each row of the trace

## src/figures/element_cycles_supported.rs

the-specification-has-no-least-43521383 = the specification has no least bubble point
cycles-supported-by-one-element-f93b5229 = Cycles supported by one element
whole-cycles-up-to-which-6df8b685 = Whole cycles up to which the lower confidence bound of the element's bubble-point line stays above the least that is allowed, and never more than it reached intact: nothing is said about cycles that nobody ran.
at-least-three-checkpoints-the-7b5eb203 = At least three checkpoints; the straight line speaks of the mean of this element.
confidence-bound-of-a-least-35d24ff6 = Confidence bound of a least-squares line (textbook)
no-extrapolation-beyond-the-cycles-86c67a97 = No extrapolation beyond the cycles tested: in the manner of ICH Q1E (from memory)
the-least-bubble-point-allowed-49dfe643 = the least bubble point allowed
the-cycles-that-the-element-f37e54ac = the cycles that the element reached intact

## src/figures/f0_full.rs

f0-with-gaps-counted-3c5f4020 = F0 with gaps counted
equivalent-time-at-c-with-87a5fd6f = Equivalent time at 121.1 °C with z = 10 K when every gap is counted at the highest temperature of the trace. It answers how much life the cycle used.
straight-lines-between-rows-k-587ee6a7 = Straight lines between rows. 0.5 K of error of the recorder makes 12 % more or 11 % less of it, more than all else: state it as the contribution recorder_temperature. It is no measure of wear.
f0-iso-and-pharmacopoeial-definition-f5945c38 = F0: ISO 17665 and pharmacopoeial definition (from memory)
logarithmic-mean-within-a-step-ae533538 = Logarithmic mean within a step: exact for a straight line
the-length-of-each-step-ad2d9c83 = the length of each step of the trace
the-temperature-at-its-start-a234e6b1 = the temperature at its start
the-temperature-at-its-end-0ed0e8b0 = the temperature at its end
definition-of-f0-74bed94d = definition of F0
the-unknown-error-of-the-e20918bf = the unknown error of the recorder over the cycle
the-temperature-difference-that-changes-a0becaa2 = the temperature difference that changes the rate tenfold

## src/figures/f0_proven.rs

f0-proven-1e685ef5 = F0 proven
equivalent-time-at-c-with-da07b5e6 = Equivalent time at 121.1 °C with z = 10 K that the trace proves. A gap counts nothing.

## src/figures/flow_recovery.rs

new-test-does-not-name-4a13b17a = new_test does not name the test of the element when new
flow-test-is-missing-22baf447 = flow_test { $id } is missing
is-of-not-of-8a681087 = { $id } is of { $element_id }, not of { $element_id2 }
states-its-flow-at-another-e05cc292 = { $id } states its flow at another pressure difference
is-no-test-of-a-1cc8eb61 = { $id } is no test of a new element
flow-recovery-b5c622b4 = Flow recovery
the-water-flow-of-an-5d7894f7 = The water flow of an element after cycles or a regeneration, over that of the same element when new, both at 20 °C and at the same stated pressure difference. It says whether regeneration still helps; above 100 % is possible.
the-same-element-the-same-2041a4a9 = The same element, the same stated pressure difference, water; the gain of a flow meter that measured both cancels; it is counted as if it did not unless the specification states it as a contribution that the instrument shares.
ratio-of-flows-common-practice-86b3c581 = Ratio of flows; common practice, no source
the-water-flow-afterwards-e295e596 = the water flow afterwards
the-water-flow-when-new-2e91b871 = the water flow when new

## src/figures/flow_resistance.rs

scatter-of-the-points-in-770dc8e8 = scatter of the points, in both parts
of-points-6e267d86 = of { $count } points
the-viscosity-of-is-not-6f03d666 = the viscosity of { $liquid } is not known here; the test is made with water
this-record-is-no-flow-220575e0 = this record is no flow_test
of-at-least-points-that-27556286 = { $list }: { $n } of at least { $least } points that a curve needs
flow-resistance-linear-part-at-0f8cc17e = Flow resistance, linear part, at 20 °C
the-coefficient-a-of-p-45c9dbdf = The coefficient a of ΔP = a·Q + b·Q² for the element alone: that of the points less that of the empty housing, brought to 20 °C by the viscosity of water. It is the resistance of the membrane. δ_a and δ_ab are the errors that the scatter of the points about either curve leaves in a: their best estimate is zero, their uncertainty that of the fit (n − 2 degrees of freedom).
water-one-direction-of-flow-0bf3a809 = Water, one direction of flow, at least three points with and three without the element, at one temperature. Its uncertainty is the scatter of the points alone; what meter, gauge and thermometer leave open is counted in the water flow.
darcy-and-forchheimer-textbook-70d343b0 = Darcy and Forchheimer (textbook)
viscosity-of-water-iapws-sr6-8a2dc0ab = Viscosity of water: IAPWS SR6-08(2011)
each-flow-through-element-and-2f6ad887 = each flow through element and housing
its-pressure-difference-006ac333 = its pressure difference
the-unknown-error-that-the-0224d503 = the unknown error that the scatter of the points leaves in the linear part
each-flow-through-the-empty-2d4eead4 = each flow through the empty housing
the-unknown-error-that-the-5f592459 = the unknown error that the scatter of the points of the empty housing leaves in the linear part
the-temperature-at-which-flows-096f4fc8 = the temperature at which flows are stated
convention-of-this-figure-f2a3a3c3 = convention of this figure
the-temperature-of-the-water-c9b108bf = the temperature of the water

## src/figures/flow_resistance_quadratic.rs

scatter-of-the-points-in-b867300b = scatter of the points, in the quadratic part
flow-resistance-quadratic-part-at-6c03545d = Flow resistance, quadratic part, at 20 °C
the-coefficient-b-of-p-492ae8fe = The coefficient b of ΔP = a·Q + b·Q² for the element alone: that of the points less that of the empty housing, brought to 20 °C by the density of water. It is the resistance of bores, adapters and slots. The scatter of the points about either curve leaves an error in b: δ_s is the part of it that stands in a as well, with the other sign, δ_o the part that is its own; δ_sb and δ_ob are those of the empty housing. Their best estimate is zero, their uncertainty that of the fit (n − 2 degrees of freedom).
density-of-water-iapws-sr6-5db33af6 = Density of water: IAPWS SR6-08(2011)
the-unknown-error-that-the-09231da7 = the unknown error that the scatter of the points leaves in both parts
the-unknown-error-that-the-cd1b9af7 = the unknown error that the scatter of the points leaves in the quadratic part alone
the-unknown-error-that-the-7cdac65d = the unknown error that the scatter of the points of the empty housing leaves in both parts
the-unknown-error-that-the-fba01b71 = the unknown error that the scatter of the points of the empty housing leaves in the quadratic part alone

## src/figures/hold_time_full.rs

hold-time-with-gaps-counted-55c27506 = Hold time with gaps counted
time-at-or-above-the-325fe9de = Time at or above the hold temperature when every gap is counted as hot, at the highest temperature of the trace. It answers how much life the cycle used, not whether the element was treated.
straight-lines-between-rows-a-96099a51 = Straight lines between rows; a gap is more than 1.5 sampling steps. No uncertainty stands beside it: an error of the recorder changes little while the plateau is clear of the hold temperature, and all where it is not; rule R72 names the cycles whose plateau is not. The figure belongs to the sensor that was read, which should be the coldest.
the-hold-temperature-101e2a57 = the hold temperature

## src/figures/hold_time_proven.rs

there-is-no-such-cycle-a5d4cf7b = there is no such cycle
the-trace-has-no-column-44e3e662 = the trace has no column temperature_c
degc-common-practice-no-source-2383aa8f = 121.0 degC (common practice, no source; the specification is silent)
hold-time-proven-b8c6a4c7 = Hold time proven
time-at-or-above-the-6e943e50 = Time at or above the hold temperature that the trace proves. A gap in the trace counts nothing: what was not recorded proves nothing.

## src/figures/join_residual.rs

test-gas-is-missing-613fb42d = test_gas is missing
how-diffusion-through-changes-with-9deabea9 = how diffusion through { $liquid } changes with temperature is not known here: test assembly and modules at one temperature, or with water
diffusion-at-another-temperature-48cdc1ec = diffusion at another temperature
to-8957af8a = { $gas }, { $from } to { $to }
no-assembly-build-lists-its-24413643 = no assembly_build lists its modules
the-assembly-was-not-measured-12d213a4 = the assembly was not measured
module-has-no-test-11b17b89 = module { $id } has no test
the-test-that-decides-about-27d5f958 = the test that decides about module { $id } has no { $quantity }
module-was-tested-with-another-47f12470 = module { $id } was tested with another gas
module-was-wetted-with-another-180b4cc3 = module { $id } was wetted with another liquid
module-was-tested-at-another-4a988e9f = module { $id } was tested at another pressure
module-is-listed-twice-a943c181 = module { $id } is listed twice
additivity-check-is-missing-in-1652f436 = additivity_check is missing in the specification or not of the form "3 u"
explain-above-u-block-above-7532ca9d = explain above { $explain } u, block above { $block } u
join-residual-9d905d2c = Join residual
the-diffusive-flow-of-the-3e02e8bd = The diffusive flow of the assembly minus the sum of the flows of its modules, all at the same conditions. φ brings the flow of a module from the temperature of its wetting liquid to that of the assembly's: the ratio of diffusion times solubility of the gas in water, uncertain by 0.3 % a kelvin (common practice, no source). What is left over goes through something that was not there when the modules were tested: a join, an adapter, an end piece or a seal of the housing. An assembly limit of n module limits would hide it. Errors that all tests on one rig share, such as its volume, are added linearly over the modules; errors of different rigs do not cancel.
same-gas-nitrogen-oxygen-or-e65e5b96 = Same gas (nitrogen, oxygen or air), test pressure and reference conditions for the assembly and every module, wetting liquids not more than 15 K apart; the last accepted test of each module. A residual far below zero is as wrong as one far above: wetting, temperature or swapped modules.
balance-of-flows-over-modules-59c93d40 = Balance of flows over modules side by side (textbook)
temperature-diffusion-hayduk-and-laudie-9abc4ca0 = Temperature: diffusion (Hayduk and Laudie 1974; Han and Bartels 1996) and solubility (IAPWS G7) in water
levels-in-standard-uncertainties-product-7dc3a6aa = Levels in standard uncertainties: product specification
the-diffusive-flow-of-the-a1389f3b = the diffusive flow of the assembly
the-diffusive-flow-of-each-e03f6e19 = the diffusive flow of each module
the-change-of-a-module-70e7719e = the change of a module's flow from the temperature of its test to that of the assembly's

## src/figures/joining_loss.rs

length-before-is-not-stated-c6c33f6d = length_before is not stated
overall-length-is-not-stated-394af39b = overall_length is not stated
length-lost-to-each-join-bb10b37d = Length lost to each join
length-of-the-modules-laid-e822c15d = Length of the modules laid end to end, less that of the joined assembly, shared among its joins. Molten plastic goes into the bead: about twice the joining path, since both sides melt. Much more means that a module was crushed.
both-lengths-at-one-temperature-01d7fd26 = Both lengths at one temperature, adapter and end piece on neither or on both.
definition-common-practice-no-source-5518f481 = Definition; common practice, no source
the-length-of-its-modules-fcfce05d = the length of its modules end to end
the-length-of-the-assembly-59a3ef0a = the length of the assembly
the-number-of-joins-1f6dd573 = the number of joins

## src/figures/leak_diameter.rs

the-test-gas-is-not-144d5f67 = the test gas is not named
the-molar-mass-of-is-2d414e3e = the molar mass of { $other } is not known here
diffusive-flow-was-not-measured-95cf84df = diffusive_flow was not measured
test-pressure-is-missing-8ad592c7 = test_pressure is missing
atmospheric-pressure-is-missing-4f94e688 = atmospheric_pressure is missing
the-join-residual-is-not-6f2dd86b = the join residual is not above its decision threshold of 1.645 u: no leak is seen that could be sized
the-test-pressure-is-too-9a6969fe = the test pressure is too low for choked flow
equivalent-leak-diameter-c9ee61e7 = Equivalent leak diameter
the-diameter-of-one-sharp-87a0ce2f = The diameter of one sharp-edged hole that would pass the join residual as a choked gas jet, with discharge coefficient 1 (the smallest hole; with 0.6 it is 1.29 times as wide). It gives the residual a size that can be compared with an organism. It is an order of magnitude, no measurement of a hole.
choked-flow-downstream-over-upstream-1f06824a = Choked flow: downstream over upstream absolute pressure at most 0.528 for a diatomic gas. Given only where the residual stands above its decision threshold of 1.645 standard uncertainties; below it there is no leak to size.
isentropic-nozzle-flow-of-an-bb4f55f8 = Isentropic nozzle flow of an ideal gas (textbook)
decision-threshold-iso-scheme-currie-190ff988 = Decision threshold: ISO 11929-1 scheme, Currie 1968 (from memory)
molar-mass-of-nitrogen-g-e0cde68a = Molar mass of nitrogen 28.0134 g/mol; gas constant CODATA 2018
the-join-residual-85036e9b = the join residual
the-molar-gas-constant-abcd30a2 = the molar gas constant
codata-exact-d541d795 = CODATA 2018, exact
the-molar-mass-of-the-0c5fc28e = the molar mass of the test gas
the-gas-temperature-ab3e9c2f = the gas temperature
the-discharge-coefficient-cfab213d = the discharge coefficient
the-smallest-hole-is-the-ff684675 = the smallest hole; 0.6 is the cautious other end
the-absolute-pressure-upstream-30a0e425 = the absolute pressure upstream
the-choked-flow-function-for-a95423c6 = the choked flow function for a ratio of heat capacities of 1.4
isentropic-flow-of-a-diatomic-b09868cf = √1.4 · (2/2.4)^3, isentropic flow of a diatomic gas

## src/figures/log_reduction_bound.rs

claim-under-test-is-not-e02eb8a6 = claim_under_test is not of the form "LRV >= 7.0 at 0.45 um"
claim-under-test-8f3e0023 = ≥ { $claimed } (claim under test)
fraction-assayed-lies-outside-to-21afbe70 = fraction_assayed lies outside 0 to 1
log-reduction-lower-bound-at-08819897 = Log reduction, lower bound at 95 %
the-log-reduction-that-the-6e5726c8 = The log reduction that the run shows with 95 % confidence: organisms of the challenge, times the share of the filtrate that was counted, over the upper bound of the organisms that passed. No colony shows no more than the challenge could have shown, so it gives a bound, never an infinite reduction. Where no colony was found, the customary "greater than log₁₀ of the challenge" is 0.48 more optimistic. The uncertainty of the challenge count is not in the bound: where the record states it, the bound conforms only if it stays above the claim by 1.645 standard uncertainties (95 %, one side).
a-true-count-a-stated-b0d0f33f = A true count; a stated share of the filtrate; valid controls.
exact-poisson-bound-garwood-4ee9d129 = Exact Poisson bound, Garwood 1936
log-reduction-as-in-astm-91179a3f = Log reduction as in ASTM F838
the-share-of-the-filtrate-f4055298 = the share of the filtrate that was counted
one-organism-f6e27239 = one organism
unit-of-a-count-923d0198 = unit of a count
the-colonies-counted-3594a09c = the colonies counted

## src/figures/membrane_bubble_point.rs

of-one-reading-591aead0 = of one reading
scatter-of-the-readings-7b9877a6 = scatter of the readings
of-readings-e38c62d8 = of { $count } readings
reading-is-not-of-the-a2743b78 = reading { $reading } is not of the right kind
this-record-is-no-membrane-6b422b1f = this record is no membrane_test
there-is-no-in-this-4ef9f74c = there is no { $quantity } in this test
bubble-point-of-flat-membrane-552b71f6 = Bubble point of flat membrane
mean-of-the-bubble-points-f5b82168 = Mean of the bubble points of the discs cut from one sample of a roll. It supports the identity and the rating of the membrane before anything is pleated; it is no particle-retention size. δ_s is the error that the scatter of the discs leaves in the mean: its best estimate is zero, its uncertainty is the standard deviation of the readings over the root of their number.
complete-wetting-and-a-slow-742cb022 = Complete wetting and a slow pressure rise; gauge pressure with the other side open to the room. Readings of different liquids are never averaged.
arithmetic-mean-method-astm-f316-7b115f6f = Arithmetic mean; method ASTM F316 as named in the record
the-bubble-point-of-each-b463597b = the bubble point of each disc
the-unknown-error-that-the-a0166a21 = the unknown error that the scatter of the readings leaves in their mean

## src/figures/membrane_thickness.rs

thickness-of-flat-membrane-41af22ea = Thickness of flat membrane
mean-of-the-thickness-readings-2804ad2c = Mean of the thickness readings of one sample. It feeds the number of pleats that fit and shows whether a roll is the one that was ordered. δ_s is the error that the scatter of the readings leaves in the mean: its best estimate is zero, its uncertainty is the standard deviation of the readings over the root of their number.
readings-under-the-same-foot-ba963334 = Readings under the same foot pressure.
arithmetic-mean-13911b7e = Arithmetic mean
each-thickness-reading-b2e8ad6a = each thickness reading

## src/figures/membrane_water_flux.rs

collected-volume-is-missing-01496015 = collected_volume is missing
collection-time-is-missing-85ae8c11 = collection_time is missing
exposed-area-is-missing-ce650f0b = exposed_area is missing
water-flux-of-flat-membrane-7a895db8 = Water flux of flat membrane
volume-of-water-per-time-cf10f70f = Volume of water per time and exposed area at the stated pressure. It is the flow as measured: no correction to 20 °C is made here.
clean-water-at-the-temperature-78172427 = Clean water at the temperature that the specification asks for.
the-collected-volume-2af4d5ff = the collected volume
the-time-in-which-it-e10ce7c0 = the time in which it was collected

## src/figures/peel_force.rs

this-record-is-no-seal-f0c21bed = this record is no seal_inspection
no-coupons-were-tested-8765e6bf = no coupons were tested
coupon-has-no-strip-width-aaede09b = coupon { $coupon } has no strip_width
the-specification-has-no-limit-cc9288cf = the specification has no limit of { $quantity }
the-limit-is-not-a-b95bfa4f = the limit is not a least value
the-inspection-names-no-sampling-e9f71c68 = the inspection names no sampling_plan
the-specification-has-no-plan-4f9233ca = the specification has no plan { $id }
plan-has-no-acceptability-constant-d535247b = plan { $id } has no acceptability_constant
mean-peel-force-on-mm-8d2d8da6 = Mean peel force on 15 mm
mean-of-the-peel-forces-3bf3854f = Mean of the peel forces, each brought to a strip of 15 mm: force over strip width. The plan decides by the quality statistic, not by this mean.
strips-peeled-at-the-stated-9bc221e6 = Strips peeled at the stated speed and temperature.
the-force-of-each-coupon-eaa833a1 = the force of each coupon
the-width-of-its-strip-f01bb1a1 = the width of its strip

## src/figures/peel_force_quality.rs

quality-statistic-of-the-peel-d125e02f = Quality statistic of the peel force
mean-peel-force-minus-the-7d94b8c0 = Mean peel force minus the least that is allowed, in standard deviations of the coupons. A plan by variables accepts when it reaches the acceptability constant, which the maker enters from its own copy of the standard.
a-sample-of-the-size-a0478ce3 = A sample of the size that the plan asks for, from a process that is about normal; each force brought to 15 mm first.
single-sampling-plan-by-variables-dd545fc0 = Single sampling plan by variables, s-method, in the manner of ISO 3951-2 (from memory)
the-least-force-allowed-ce415eb2 = the least force allowed

## src/figures/pleat_count.rs

this-record-is-no-pleating-afb459d7 = this record is no pleating_record
there-is-no-such-pack-eefcde6e = there is no such pack
number-of-pleats-4f3e0a58 = Number of pleats
the-pleats-of-one-pack-91658389 = The pleats of one pack, as counted. A count is compared as it is.
the-number-of-pleats-counted-89e170cb = the number of pleats counted

## src/figures/pleat_room.rs

no-element-geometry-describes-2dff881a = no element_geometry describes { $product }
the-specification-does-not-limit-29123566 = the specification does not limit the pleat count upwards
this-record-is-no-layer-6127d51f = this record is no layer_stack
room-of-a-pleat-at-d9f46fb7 = Room of a pleat at the core
the-circumference-of-the-core-84d52429 = The circumference of the core, shared among as many pleats as the specification allows at most, less the two flanks of a pleat. Below zero the pack cannot be closed around its core without crushing the layers.
all-layers-of-one-flank-5acc1766 = All layers of one flank as they lie, not pressed together; the side seam is one pleat of the count.
geometry-of-a-pleated-pack-f0073d1e = Geometry of a pleated pack; common practice, no source
the-ratio-of-a-circle-291b93ec = the ratio of a circle's circumference to its diameter
mathematics-c8e88d9d = mathematics
the-outer-diameter-of-the-03d684a3 = the outer diameter of the core
the-most-pleats-that-the-4773e79d = the most pleats that the specification allows
the-thickness-of-each-layer-65034739 = the thickness of each layer

## src/figures/pleated_area.rs

gross-membrane-area-of-a-26caaafe = Gross membrane area of a pack
two-flanks-a-pleat-each-e614f0d4 = Two flanks a pleat, each as high as the pleat and as long as the pleated length. Gross: the side seam and the end-cap embedment are not taken off, so the effective filtration area of the specification is smaller.
whole-pleats-the-length-is-3495002a = Whole pleats; the length is measured along the axis.
the-number-of-pleats-e9622a49 = the number of pleats
the-height-of-a-flank-3f63f2e1 = the height of a flank
the-pleated-length-along-the-6d008de8 = the pleated length along the axis

## src/figures/pull_force_quality.rs

quality-statistic-of-the-pull-c539d6aa = Quality statistic of the pull force
mean-pull-force-of-joined-9098bb22 = Mean pull force of joined end caps minus the least that is allowed, in standard deviations of the coupons. A plan by variables accepts when it reaches the acceptability constant.
a-sample-of-the-size-9592815a = A sample of the size that the plan asks for, from a process that is about normal.

## src/figures/repeatability.rs

this-record-is-no-measurement-f21af053 = this record is no measurement_study
the-results-are-not-all-3c0369d9 = the results are not all in { $what }
repeatability-1dc66820 = Repeatability
standard-deviation-of-repeated-results-c5939d15 = Standard deviation of repeated results of one element by one operator, as a share of the mean of all results. The wetting contribution of the specification's uncertainty budget must not be smaller.
each-element-wetted-and-tested-9e1c15a8 = Each element wetted and tested anew each time; at least two results a cell.
repeatability-standard-deviation-in-the-f3b77475 = Repeatability standard deviation in the sense of ISO 5725-1 (from memory)
each-result-a-number-of-cd8e3fa6 = each result, a number of its unit
the-number-of-its-element-34b2c18b = the number of its element and operator together

## src/figures/reproducibility.rs

reproducibility-8b8e41ad = Reproducibility
standard-deviation-of-single-results-4c87ce8a = Standard deviation of single results of one element by different operators or on different rigs, as a share of the mean of all results: the spread between operators, their interaction with the elements included, and the repeats together, all of one analysis of variance. Two or three operators know it badly.
every-element-tested-equally-often-6140fdd5 = Every element tested equally often by every operator, at least twice each.
reproducibility-standard-deviation-in-the-2e1ece50 = Reproducibility standard deviation in the sense of ISO 5725-1 (from memory)
analysis-of-variance-of-a-8e457922 = Analysis of variance of a crossed study (AIAG MSA manual, from memory)
the-number-of-its-element-c3ef64e0 = the number of its element
the-number-of-its-operator-e48108a8 = the number of its operator

## src/figures/ring_clearance_hot.rs

it-was-not-measured-3ca273f4 = it was not measured
the-geometry-has-no-fit-76a086a0 = the geometry has no fit of a ring
clearance-of-the-ring-when-e9d014d4 = Clearance of the ring when hot
the-play-of-the-stainless-18057663 = The play of the stainless ring as it was measured on this assembly, on the diameter, plus what the ring grows and less what the plastic under it grows up to the hottest state. A ring that turns when cold may still be gripped in steam; what the drawing allows says nothing of the part that was made.
radial-play-measured-at-the-b8a45856 = Radial play measured at the reference temperature of the geometry, taken on one side; the fit of the geometry whose outer part is the ring.
the-measured-radial-play-5f5576c7 = the measured radial play
the-bore-of-the-ring-ff7ae39a = the bore of the ring
the-expansion-of-the-ring-795796b5 = the expansion of the ring
the-diameter-of-the-plastic-6666fa02 = the diameter of the plastic under it
the-expansion-of-the-plastic-0e0c875d = the expansion of the plastic

## src/figures/slit_width.rs

this-record-is-no-slitting-04211723 = this record is no slitting_record
mean-width-of-a-slit-8e80c0b7 = Mean width of a slit coil
mean-of-the-widths-read-c8eb2024 = Mean of the widths read along the coil: the strip must fit the module.
readings-in-their-order-along-1b450de6 = Readings in their order along the coil.
each-width-0d7bb954 = each width

## src/figures/slit_width_deviation.rs

largest-deviation-from-the-nominal-b6f473c7 = Largest deviation from the nominal width
the-largest-distance-of-a-2c4cabe2 = The largest distance of a reading from the nominal width, held against the tolerance of the record (±0.1 mm: common practice, no source). The largest decides, under the rule of the specification.
the-nominal-width-4a33552c = the nominal width

## src/figures/slit_width_spread.rs

standard-deviation-of-the-widths-22f659c5 = Standard deviation of the widths of a coil
standard-deviation-of-the-widths-c52cb1ad = Standard deviation of the widths along one coil, with n − 1.
at-least-two-readings-6b56fe06 = At least two readings.

## src/figures/smallest_margin.rs

this-record-is-no-assembly-cc790aec = this record is no assembly_build
least-room-to-a-limit-8c0bb2c7 = Least room to a limit, join residual apart, in u
the-room-of-each-judged-75328299 = The room of each judged figure of the assembly, of its modules and of their rolls to its nearer limit, in standard uncertainties of that figure; the smallest of them. Below two, with a guard band of one expanded uncertainty, the assembly is undecided or worse. It says where to look first, not how probable a failure is.
figures-decided-with-a-guard-b18bb6cb = Figures decided with a guard band; counts, statistics of a sampling plan and the join residual have rules of their own. The last test of each element.
room-over-standard-uncertainty-the-f4d2c67d = Room over standard uncertainty: the argument of the conformance probability in JCGM 106:2012, clause 7 (from memory)
the-room-of-each-judged-4c50f33e = the room of each judged figure, in standard uncertainties

## src/figures/straightness.rs

straightness-8a4caf58 = Straightness
the-largest-distance-of-the-eda3c7e8 = The largest distance of the joined assembly from a straight line. Modules are guarded against deformation while they are joined; what is bent sits askew in its housing and leans on its seals.
measured-on-the-finished-assembly-afa8f6f1 = Measured on the finished assembly at room temperature.
direct-measurement-common-practice-no-ae039ca1 = Direct measurement; common practice, no source
the-measured-distance-cde83093 = the measured distance

## src/figures/water_flow.rs

the-linear-part-of-the-00d205c3 = the linear part of the resistance is not above zero
stated-differential-pressure-lies-outside-910344b4 = stated_differential_pressure { $stated } lies outside the points, { $least } to { $most }: nothing is extrapolated
water-flow-at-c-28e02d1a = Water flow at 20 °C
the-flow-of-water-at-2daa46a0 = The flow of water at 20 °C that the stated pressure difference drives through the element alone: the root of ΔP = a·Q + b·Q², written so that a vanishing b does no harm.
water-the-stated-pressure-difference-418280c4 = Water; the stated pressure difference inside the range of the points.
the-stated-pressure-difference-b22d36c5 = the stated pressure difference
the-linear-part-of-the-cee08639 = the linear part of the resistance
the-quadratic-part-of-the-b5d6733c = the quadratic part of the resistance

## src/formula/mod.rs

has-values-where-are-needed-9ea6e58d = { $var } has { $count } values where { $n } are needed
is-not-a-finite-number-5b812b3f = `{ $what }` is not a finite number
needs-a-pure-number-and-25989e30 = `{ $what }` needs a pure number and gets { $dim }
halves-33472a5c = `{ $what }` halves { $dim }
adds-and-e4e38831 = `{ $what }` adds { $left } and { $right }

## src/formula/print.rs

cos-b66f23eb = cos { $a }
log-6e52ddc3 = log₁₀ { $a }

## src/graph.rs

computing-figures-34e6c19c = computing figures
definition-84145ca0 = definition
there-is-no-value-of-489dc768 = there is no value of { $input }, { $what }
no-figure-of-it-has-14069118 = no figure of it has a limit and an uncertainty
does-not-exist-39055f41 = { $id } does not exist
has-no-value-a6c64b82 = { $id } has no value: { $why }

## src/graph/contributions.rs

of-the-value-f3650d23 = { $source }: { $relative } of the value

## src/procedure.rs

the-series-are-not-equally-2c193769 = the series are not equally long
values-and-at-least-are-33d288b0 = { $n } values, and at least { $least } are needed
pressure-flow-factor-pressure-are-bf2cbbd9 = pressure; flow; factor; pressure are due
the-ramp-has-more-than-af5670a3 = the ramp has more than { $what } rows
only-readings-lie-below-the-e5f380a9 = only { $count } readings lie below the pressure up to which the line is fitted; 3 are needed
the-ramp-begins-above-the-80102d84 = the ramp begins above the bubble point
the-flow-never-leaves-the-1fe3293b = the flow never leaves the line that is fitted to it: the ramp ended below the bubble point, or began above it
a-time-and-temperatures-are-55ed49bf = a time and temperatures are due
z-must-be-above-zero-ed83b1c4 = z must be above zero
a-flow-and-a-pressure-bbe56cd0 = a flow and a pressure difference are due
a-temperature-is-due-d1cc7948 = a temperature is due
cycles-results-least-result-confidence-82101433 = cycles; results; least result; confidence; cycles are due
the-first-result-lies-below-8c48f606 = the first result lies below the least that is allowed
counts-are-due-807f6015 = counts are due
no-element-was-tested-twice-501da5a3 = no element was tested twice by one operator
slope-of-the-straight-line-8b0df62b = Slope of the straight line through the points (x, y) with the least sum of squared deviations in y, all points weighted alike.
the-smallest-of-the-values-1ae8a575 = The smallest of the values; of equal ones the first.
the-largest-of-the-values-9be700d2 = The largest of the values without their signs; of equal ones the first.
a-straight-line-is-fitted-4d7c75bc = A straight line is fitted by least squares to the flow below the stated pressure. The result is the pressure at which the flow exceeds the stated multiple of that line: the first reading above it and the one before are joined by a straight line in the ratio of flow to line. Where a reading at half the stated pressure or more exceeds the line through the readings before it in that way, the line is fitted to those alone. Slopes are central differences.
sum-over-the-steps-of-401e8103 = Sum over the steps of Δt times the mean of 10^((T − T_ref)/z), T running in a straight line from T_a to T_b within a step. That mean is the logarithmic one; a trapezium would credit too much on a ramp.
sum-over-the-steps-of-098baa57 = Sum over the steps of the part of Δt in which the temperature, running in a straight line from T_a to T_b, is at or above T_hold.
the-exact-one-sided-upper-7236c708 = The exact one-sided upper confidence bound of the mean of a Poisson count n: half the quantile of the chi-squared distribution with 2(n + 1) degrees of freedom (Garwood 1936). For n = 0 and 95 % it is 2.996. A count has no slope.
the-coefficient-a-of-p-c7290f87 = The coefficient a of ΔP = a·Q + b·Q², fitted by least squares through the origin, all points weighted alike.
the-coefficient-b-of-p-839f5134 = The coefficient b of ΔP = a·Q + b·Q², fitted by least squares through the origin, all points weighted alike.
dynamic-viscosity-of-liquid-water-c90768dd = Dynamic viscosity of liquid water at 0.1 MPa: IAPWS SR6-08(2011), equation 7: 10⁻⁶ Pa·s × (280.68 τ^−1.9 + 511.45 τ^−7.7 + 61.131 τ^−19.6 + 0.45903 τ^−40), τ = T/(300 K).
density-of-liquid-water-at-1314fbb4 = Density of liquid water at 0.1 MPa: IAPWS SR6-08(2011): 1/(0.046151805 m³/kg × (0.0193763157 + Σ aₙ αⁿ + Σ bₘ βᵐ)), α = 10 K/(593 K − T), β = 10 K/(T − 232 K); a₄ = 6744.58446, a₅ = −222521.604, a₇ = 1.00231247·10⁸, a₈ = −1.63552118·10⁹, a₉ = 8.32299658·10⁹; b₁ to b₆ = 0.00578545292, −0.0153195665, 0.0311337859, −0.0423546241, 0.0338713507, −0.0119946761.
a-straight-line-is-laid-9f66ea2d = A straight line is laid through the results of one element against its cycles. What is supported is the number of whole cycles up to which the one-sided lower confidence bound of that line stays above the least that is allowed, and never more than the cycles that the element reached intact. A count has no slope.
the-exact-one-sided-lower-865996ea = The exact one-sided lower confidence bound of the share of elements that survive, after some failures among n: the quantile 1 − C of the beta distribution with n − c and c + 1 (Clopper and Pearson). Without a failure it is the n-th root of 1 − C. A count has no slope.
standard-deviation-of-repeated-results-b239f49c = Standard deviation of repeated results about the mean of their own cell (one element, one operator), the sums of squares of all cells together over their degrees of freedom.
standard-deviation-of-single-results-a876fa28 = Standard deviation of single results of one element: variance between operators, of their interaction with the elements, and of the repeats, by the analysis of variance of a crossed study; an interaction that chance explains with a probability above 0.25 is taken into the repeats.
