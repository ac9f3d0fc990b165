//! `kind: release_statement`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// One consignment to one customer.
    pub struct ReleaseStatement {
        /// What it is.
        document_type: Text,
        /// A map of who issues it: name, address.
        issuer: Any,
        /// Where.
        place_of_issue: Option<Text>,
        /// When.
        issued_on: Option<Day>,
        /// A map of to whom: customer_id, name, order.
        customer: Any,
        /// What is released.
        object: Object,
        /// What it conforms to: a map each, with document, revision.
        requirements: Vec<Any>,
        /// The statement.
        statement: Text,
        /// Its limits.
        limitations: List<Text>,
        /// Deviations that touch the lot.
        deviations_disclosed: List<Id>,
        /// A map: dispatch_note, consignee (the customer_id), packages.
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

impl ReleaseStatement {
    /// Every signature of one meaning, in the order of the record: whoever signs beside another counts as much.
    pub fn signed_as<'a>(
        &'a self,
        meaning: &'a str,
    ) -> impl Iterator<Item = &'a Signature> + Clone {
        let all = self.signatures.iter();
        all.filter(move |own| *own.meaning == *meaning)
    }
}
