//! `kind: signature_policy`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

shape! {
    /// Which meanings must be signed, by whom not, and in which order.
    pub struct SignaturePolicy {
        /// The meanings, in the order in which they are signed.
        meanings: Vec<Meaning>,
        /// Public keys by person, in the form of OpenSSH.
        allowed_keys: List<AllowedKey>,
    }
}

shape! {
    /// One meaning.
    pub struct Meaning {
        /// authorship, review, release.
        meaning: Text,
        /// The functions that may sign it; any where empty.
        functions: List<Text>,
        /// Meanings that the same person must not have signed.
        not_with: List<Text>,
    }
}

shape! {
    /// A person's key.
    pub struct AllowedKey {
        /// The person.
        person_id: Id,
        /// The public key.
        public_key: Text,
    }
}
