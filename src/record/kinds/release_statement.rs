//! `kind: release_statement`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// One consignment to one customer.
    pub struct ReleaseStatement {
        /// What it is.
        document_type: Text,
        /// Who issues it: name and address.
        issuer: Any,
        /// Where.
        place_of_issue: Option<Text>,
        /// When.
        issued_on: Option<Day>,
        /// To whom: customer_id, name, order.
        customer: Any,
        /// What is released.
        object: Object,
        /// Documents and revisions.
        requirements: Vec<Any>,
        /// The statement.
        statement: Text,
        /// Its limits.
        limitations: List<Text>,
        /// Deviations that touch the lot.
        deviations_disclosed: List<Id>,
        /// Dispatch note, time, packages, consignee.
        consignment: Option<Any>,
        /// The digest.
        dossier_root_digest: Option<Text>,
        /// Who signed.
        signatures: List<Signature>,
        /// How long kept.
        retention_until: Option<Day>,
        /// Who is authorised to release.
        authorised_person: Option<Id>,
    }
}

shape! {
    /// What is released.
    pub struct Object {
        /// The code.
        product_code: Text,
        /// The lot.
        lot_id: Id,
        /// The assemblies.
        assemblies: Vec<Id>,
        /// How many.
        quantity: Count,
    }
}

shape! {
    /// A signature entry.
    pub struct Signature {
        /// Who.
        person_id: Id,
        /// The name as printed.
        printed_name: Text,
        /// As what.
        function: Text,
        /// authorship, review or release.
        meaning: Text,
        /// When.
        signed_at: When,
        /// What was signed.
        signed_digest: Option<Text>,
    }
}
