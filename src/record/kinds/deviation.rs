//! `kind: deviation`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// Something that went wrong, and what was decided.
    pub struct Deviation {
        /// A map of ids under any keys, such as module_id, assembly_id, module_ids (a list), lot_id, failed_test, retest, instrument, plan; whatever is named there the deviation speaks of. A revision is named as record: "MT-1 revision 2".
        subject: Any,
        /// When found.
        detected_at: When,
        /// What kind.
        category: Category,
        /// What happened.
        description: Text,
        /// A map: known (true or false), reason_code, evidence (which record shows it).
        cause: Option<Any>,
        /// What was done.
        action_before_retest: Option<Text>,
        /// Who allowed a retest.
        retest_allowed_by: Option<Id>,
        /// When.
        retest_authorised_at: Option<When>,
        /// On what.
        impact: Option<Text>,
        /// What was decided.
        decision: Option<Decision>,
        /// Against a repeat.
        preventive_action: Option<Text>,
        /// What comes next.
        next_step: Option<Text>,
        /// Who decided.
        approved_by: Option<Id>,
        /// When.
        approved_at: Option<When>,
    }
}

words! {
    /// The kinds of deviation.
    pub enum Category {
        /// A test was repeated.
        Retest = "retest",
        /// A thing does not conform.
        NonconformingProduct = "nonconforming_product",
        /// Neither accepted nor rejected.
        Undecided = "undecided",
        /// A test does not count.
        TestInvalid = "test_invalid",
        /// A result or thing was left out.
        Exclusion = "exclusion",
        /// An instrument.
        Calibration = "calibration",
        /// A mark.
        Marking = "marking",
        /// A record.
        Data = "data",
    }
}

words! {
    /// What can be decided.
    pub enum Decision {
        /// Not used.
        Reject = "reject",
        /// Waits.
        Hold = "hold",
        /// The repeated test counts.
        AcceptAfterRetest = "accept_after_retest",
        /// Used as it is, with consent.
        Concession = "concession",
        /// The result does not count and stays visible.
        ExcludeResultKeepVisible = "exclude_result_keep_visible" => "result excluded, kept visible",
    }
}
