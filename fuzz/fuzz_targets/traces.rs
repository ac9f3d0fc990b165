//! A trace of an instrument: what is accepted has finite readings, as many in each column, and a rising time.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sealfolio::record::trace::Trace;

// The first byte is the separator that the record states, and none of the trace: one way of reading a case.
fuzz_target!(|data: &[u8]| {
    let Some((separator, data)) = data.split_first() else {
        return;
    };
    let (decimal, separator) = match separator {
        b';' => (',', b';'),
        b'\t' => ('.', b'\t'),
        _ => ('.', b','),
    };
    if let Ok(trace) = Trace::read(data, decimal, separator) {
        for pair in trace.time.windows(2) {
            assert!(pair[0] < pair[1]);
        }
        for column in &trace.columns {
            assert_eq!(column.values.len(), trace.time.len());
            assert!(column.values.iter().all(|value| value.is_finite()));
        }
    }
});
