//! Time stamps (RFC 3161) beside signatures: a token shows that somebody who keeps time saw a signature's digest.
//!
//! What is checked here is that the token speaks of this very signature. Whether its own signature holds, and who made it, is
//! left to tools that know whom the reader trusts (`openssl ts -verify`); no network is used.

use cms::{content_info::ContentInfo, signed_data::SignedData};
use der::{
    DateTime, Decode as _, Reader as _, SliceReader,
    asn1::{AnyRef, ObjectIdentifier, OctetString, OctetStringRef},
};
use sha1::Sha1;
use sha2::{Digest as _, Sha256, Sha384, Sha512};
use x509_tsp::TimeStampResp;

/// Endings of token files: a response of a time-stamping authority, or the token alone.
pub const ENDINGS: [&str; 2] = [".tsr", ".tst"];

/// The time that a token states for some bytes.
///
/// # Errors
/// In words: it cannot be read, or speaks of other bytes.
pub fn time(token: &[u8], of: &[u8]) -> Result<String, String> {
    let unreadable = || say!("it is no time stamp of RFC 3161 that can be read").to_owned();
    let stated = stated(token).ok_or_else(unreadable)?;
    let found = match &*stated.function {
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
    match stated.digest == found {
        true => Ok(stated.time),
        false => Err(say!("it speaks of another signature").into()),
    }
}

/// What a token states: of which digest, by which function (its object identifier), and when.
#[derive(Debug, PartialEq)]
struct Stated {
    function: String,
    digest: Vec<u8>,
    time: String,
}

fn stated(token: &[u8]) -> Option<Stated> {
    let content = match TimeStampResp::from_der(token) {
        Ok(response) => response.time_stamp_token?,
        Err(_) => ContentInfo::from_der(token).ok()?,
    };
    let signed: SignedData = content.content.decode_as().ok()?;
    let inner: OctetString = signed.encap_content_info.econtent?.decode_as().ok()?;
    of_info(inner.as_bytes())
}

/// TSTInfo (RFC 3161, 2.4.2): version, policy, imprint, serial number, time, and what is not looked at here.
///
/// The package's own type is not used for it: it refuses fractions of a second and policies with few numbers, which the
/// standard allows.
fn of_info(bytes: &[u8]) -> Option<Stated> {
    let info = AnyRef::from_der(bytes).ok()?;
    let fields = info.sequence(|reader| {
        let (_version, _policy) = (AnyRef::decode(reader)?, AnyRef::decode(reader)?);
        let imprint = AnyRef::decode(reader)?;
        let (_serial, time) = (AnyRef::decode(reader)?, AnyRef::decode(reader)?);
        skip(reader)?;
        Ok((imprint, time))
    });
    let (imprint, time) = fields.ok()?;
    let imprint = imprint.sequence(|reader| {
        let function = AnyRef::decode(reader)?.sequence(|reader| {
            let function = ObjectIdentifier::decode(reader)?;
            skip(reader)?;
            Ok(function.to_string())
        })?;
        Ok((
            function,
            OctetStringRef::decode(reader)?.as_bytes().to_vec(),
        ))
    });
    let (function, digest) = imprint.ok()?;
    Some(Stated {
        function,
        digest,
        time: moment(std::str::from_utf8(time.value()).ok()?)?,
    })
}

fn skip(reader: &mut SliceReader) -> der::Result<()> {
    while !reader.is_finished() {
        AnyRef::decode(reader)?;
    }
    Ok(())
}

/// `20260320095600.25Z` as `2026-03-20T09:56:00.25Z`; a fraction has no zero at its end (RFC 3161, 2.4.2).
fn moment(written: &str) -> Option<String> {
    let (whole, part) = match written.strip_suffix('Z')?.split_once('.') {
        Some((whole, part)) => (whole, Some(part)),
        None => (written.strip_suffix('Z')?, None),
    };
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() != 14 || !digits(whole) {
        return None;
    }
    let part = match part {
        Some(part) if digits(part) && part.len() <= 9 && !part.ends_with('0') => format!(".{part}"),
        Some(_) => return None,
        None => String::new(),
    };
    let two = |at: usize| whole.get(at..at + 2)?.parse::<u8>().ok();
    let year = whole.get(..4)?.parse().ok()?;
    let time = DateTime::new(year, two(4)?, two(6)?, two(8)?, two(10)?, two(12)?).ok()?;
    Some(format!("{}{part}Z", time.to_string().trim_end_matches('Z')))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_the_standard_writes_them() {
        // The examples of RFC 3161, 2.4.2.
        assert_eq!(
            moment("19990609001326.34352Z").unwrap(),
            "1999-06-09T00:13:26.34352Z"
        );
        assert_eq!(moment("19990609001326Z").unwrap(), "1999-06-09T00:13:26Z");
        for wrong in [
            "19990609001326.10Z",
            "19990609001326.Z",
            "19990609001326",
            "199906090013Z",
            "19991309001326Z",
            "19990609001326+0100",
            "",
        ] {
            assert_eq!(moment(wrong), None, "{wrong}");
        }
    }
}
