//! Time stamps (RFC 3161) beside signatures: a token shows that somebody who keeps time saw a signature's digest.
//!
//! What is checked here is that the token speaks of this very signature. Whether its own signature holds, and who made it, is
//! left to tools that know whom the reader trusts (`openssl ts -verify`); no network is used.

use cms::{content_info::ContentInfo, signed_data::SignedData};
use der::{Decode as _, asn1::OctetString};
use sha1::Sha1;
use sha2::{Digest as _, Sha256, Sha384, Sha512};
use x509_tsp::{TimeStampResp, TstInfo};

/// Endings of token files: a response of a time-stamping authority, or the token alone.
pub const ENDINGS: [&str; 2] = [".tsr", ".tst"];

/// The time that a token states for some bytes.
///
/// # Errors
/// In words: it cannot be read, or speaks of other bytes.
pub fn time(token: &[u8], of: &[u8]) -> Result<String, String> {
    let unreadable = || say!("it is no time stamp of RFC 3161 that can be read").to_owned();
    let info = info(token).ok_or_else(unreadable)?;
    let imprint = &info.message_imprint;
    let found = match &*imprint.hash_algorithm.oid.to_string() {
        "1.3.14.3.2.26" => Sha1::digest(of).to_vec(),
        "2.16.840.1.101.3.4.2.1" => Sha256::digest(of).to_vec(),
        "2.16.840.1.101.3.4.2.2" => Sha384::digest(of).to_vec(),
        "2.16.840.1.101.3.4.2.3" => Sha512::digest(of).to_vec(),
        other => {
            return Err(say!(
                "it uses a hash function that is not known here ({oid})",
                oid = other
            ));
        }
    };
    match imprint.hashed_message.as_bytes() == found {
        true => Ok(info.gen_time.to_date_time().to_string()),
        false => Err(say!("it speaks of another signature").into()),
    }
}

fn info(token: &[u8]) -> Option<TstInfo> {
    let content = match TimeStampResp::from_der(token) {
        Ok(response) => response.time_stamp_token?,
        Err(_) => ContentInfo::from_der(token).ok()?,
    };
    let signed: SignedData = content.content.decode_as().ok()?;
    let inner: OctetString = signed.encap_content_info.econtent?.decode_as().ok()?;
    TstInfo::from_der(inner.as_bytes()).ok()
}
