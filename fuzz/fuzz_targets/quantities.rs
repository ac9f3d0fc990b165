//! Numbers, numbers with units, limits, moments and days: what is accepted is finite.
#![no_main]

use libfuzzer_sys::fuzz_target;
use sealfolio::{
    ground::{number, place::Spot, time},
    record::quantity::Demand,
};

fuzz_target!(|text: &str| {
    if let Ok(value) = number::parse(text) {
        assert!(value.is_finite());
        for digits in 1..6 {
            assert!(!number::significant(value, digits).is_empty());
        }
    }
    if let Ok((value, _)) = number::parse_with_unit(text) {
        assert!(value.is_finite());
    }
    if let Ok(demand) = Demand::parse(text, Spot::default()) {
        demand.holds(1.0);
    }
    if let Ok(moment) = time::Time::parse(text) {
        assert!(moment.seconds_since(moment) == 0.0 && !moment.written().is_empty());
    }
    if let Ok(day) = time::parse_date(text) {
        assert_eq!(day.next().days_since(day), 1);
    }
});
