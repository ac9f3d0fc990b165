//! `kind: dossier`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::{shape, words};

shape! {
    /// What this folder is: the root file `dossier.yaml`.
    pub struct Dossier {
        /// The title on every page.
        title: Text,
        /// The id of the dossier; `id` says the same.
        record_id: Option<Id>,
        /// The revision of the dossier, from 1.
        revision: Revision,
        /// Why it was revised, from revision 2.
        change_reason: Option<Text>,
        /// When this record was written.
        recorded_at: Option<When>,
        /// By whom.
        recorded_by: Option<Id>,
        /// Anything else.
        remarks: Option<Text>,
        /// The version of the record format, "1".
        record_format: Option<Text>,
        /// The id of the dossier; `record_id` says the same.
        id: Option<Id>,
        /// The released dossier that this one replaces.
        supersedes: Option<Superseded>,
        /// Who makes the elements.
        maker: Party,
        /// Who receives them.
        customer: Option<Party>,
        /// Who receives them, when there are several.
        customers: List<Party>,
        /// The lots and assemblies that it covers; all when absent.
        scope: Option<Scope>,
        /// The date that goes on the pages; no clock is read.
        compiled_on: Day,
        /// The language of the pages.
        language: Option<Tongue>,
        /// The language in which records and chapters are written, where it is another than that of the pages.
        records_language: Option<Tongue>,
        /// Markdown files under `narrative/`, in order.
        chapters: List<Text>,
        /// Units in which pages print quantities.
        display_units: Option<Any>,
        /// Who must sign, and as what.
        expected_signers: List<Signer>,
    }
}

impl Dossier {
    /// The language in which records and chapters are written: the one that is said, else that of
    /// the pages.
    pub fn written(&self) -> Option<Tongue> {
        let said = self.records_language.as_ref().or(self.language.as_ref())?;
        Some(*said)
    }
}

words! {
    /// A language of the pages.
    pub enum Tongue {
        /// English.
        English = "en",
        /// Italian.
        Italian = "it",
        /// French.
        French = "fr",
        /// German.
        German = "de",
        /// Spanish.
        Spanish = "es",
        /// Portuguese.
        Portuguese = "pt",
    }
}

shape! {
    /// A superseded dossier.
    pub struct Superseded {
        /// Its id.
        id: Id,
        /// Its revision.
        revision: Revision,
        /// Its digest, `sha256:` and 64 digits.
        digest: Option<Text>,
    }
}

shape! {
    /// A firm.
    pub struct Party {
        /// Its id.
        id: Option<Id>,
        /// Its id as a customer.
        customer_id: Option<Id>,
        /// Its name.
        name: Text,
        /// Its address.
        address: Option<Text>,
        /// The order.
        order: Option<Text>,
    }
}

shape! {
    /// What a dossier covers.
    pub struct Scope {
        /// Lots.
        lots: List<Id>,
        /// Assemblies.
        assemblies: List<Id>,
    }
}

words! {
    /// What a signature means.
    pub enum SignedAs {
        /// I made it.
        Prepared = "prepared",
        /// I checked it.
        Reviewed = "reviewed",
        /// I release what it speaks of.
        Approved = "approved for release",
        /// I have it.
        Received = "received",
    }
}

shape! {
    /// An expected signature.
    pub struct Signer {
        /// Who.
        person_id: Id,
        /// As what.
        meaning: SignedAs,
    }
}
