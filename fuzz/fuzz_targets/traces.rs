//! A trace of an instrument: what is accepted has finite readings, as many in each column, and a rising time.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sealfolio::record::trace::Trace;

fuzz_target!(|data: &[u8]| {
    for (decimal, separator) in [('.', b','), (',', b';'), ('.', b'\t')] {
        if let Ok(trace) = Trace::read(data, decimal, separator) {
            for pair in trace.time.windows(2) {
                assert!(pair[0] < pair[1]);
            }
            for column in &trace.columns {
                assert_eq!(column.values.len(), trace.time.len());
                assert!(column.values.iter().all(|value| value.is_finite()));
            }
        }
    }
});
