//! Bags of others (RFC 8493): what the standard calls valid is whole for `verify`, all else is refused with the reason.
//!
//! Every case is written from the text of the standard; the section stands beside it.

mod common;

use std::{collections::BTreeMap, fs, path::Path};

use common::code;
use serde_json::Value;
use sha2::{Digest as _, Sha256, Sha512};

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

fn sha256(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

fn sha512(bytes: &[u8]) -> String {
    hex(&Sha512::digest(bytes))
}

type Files = BTreeMap<String, Vec<u8>>;

/// The smallest bag of a standard's example: two files, one in a folder.
fn small() -> Files {
    let mut files = Files::from([
        (
            "bagit.txt".into(),
            b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n".to_vec(),
        ),
        ("data/one.txt".into(), b"one\n".to_vec()),
        ("data/a/two.txt".into(), b"two\n".to_vec()),
    ]);
    list(
        &mut files,
        "manifest-sha256.txt",
        &[
            ("data/one.txt", "data/one.txt"),
            ("data/a/two.txt", "data/a/two.txt"),
        ],
        sha256,
    );
    files
}

/// Writes a manifest over files, each under the name that the manifest is to say.
fn list(files: &mut Files, name: &str, listed: &[(&str, &str)], digest: fn(&[u8]) -> String) {
    let lines: String = listed
        .iter()
        .map(|(path, said)| format!("{}  {said}\n", digest(&files[*path])))
        .collect();
    files.insert(name.into(), lines.into_bytes());
}

fn edit(files: &mut Files, name: &str, change: impl Fn(String) -> String) {
    let text = String::from_utf8(files[name].clone()).unwrap();
    files.insert(name.into(), change(text).into_bytes());
}

fn checked(files: &Files) -> (i32, Value) {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), files);
    let (status, text) = code(&["verify", folder.path().to_str().unwrap(), "--json"]);
    (
        status,
        serde_json::from_str(&text).unwrap_or_else(|_| panic!("{text}")),
    )
}

fn write(root: &Path, files: &Files) {
    for (path, bytes) in files {
        let to = root.join(path);
        fs::create_dir_all(to.parent().unwrap()).unwrap();
        fs::write(to, bytes).unwrap();
    }
}

#[test]
fn valid_bags_are_whole() {
    let both: &[(&str, &str)] = &[
        ("data/one.txt", "data/one.txt"),
        ("data/a/two.txt", "data/a/two.txt"),
    ];
    let mut cases: Vec<(&str, Files)> = vec![("two files", small())];
    let mut case = |what, change: &dyn Fn(&mut Files)| {
        let mut files = small();
        change(&mut files);
        cases.push((what, files));
    };
    case("2.4: SHA-512 alone", &|files| {
        files.remove("manifest-sha256.txt");
        list(files, "manifest-sha512.txt", both, sha512);
    });
    case("2.4: two manifests", &|files| {
        list(files, "manifest-sha512.txt", both, sha512)
    });
    case(
        "2.2.1: a tag manifest, and a tag file that it does not list",
        &|files| {
            files.insert(
                "bag-info.txt".into(),
                b"Source-Organization: Us\nContact-Name: A\n  continued\nPayload-Oxum: 8.2\n"
                    .to_vec(),
            );
            files.insert("notes/more.txt".into(), b"more".to_vec());
            list(
                files,
                "tagmanifest-sha256.txt",
                &[
                    ("bagit.txt", "bagit.txt"),
                    ("bag-info.txt", "bag-info.txt"),
                    ("manifest-sha256.txt", "manifest-sha256.txt"),
                ],
                sha256,
            );
        },
    );
    case("2.1.3: a line end and a per cent sign in names", &|files| {
        files.insert("data/100% a\nb.txt".into(), b"odd".to_vec());
        list(
            files,
            "manifest-sha256.txt",
            &[
                ("data/one.txt", "data/one.txt"),
                ("data/a/two.txt", "data/a/two.txt"),
                ("data/100% a\nb.txt", "data/100%25 a%0Ab.txt"),
            ],
            sha256,
        );
    });
    case("2.1.3: capital digits, a tab, an asterisk", &|files| {
        edit(files, "manifest-sha256.txt", |text| {
            let lines: Vec<String> = text
                .lines()
                .map(|line| {
                    let (digest, path) = line.split_once("  ").unwrap();
                    format!("{}\t*{path}\r\n", digest.to_uppercase())
                })
                .collect();
            lines.concat()
        });
    });
    case("2.1.3: names with blanks and other letters", &|files| {
        files.insert("data/Prüf bericht.txt".into(), b"x".to_vec());
        list(
            files,
            "manifest-sha256.txt",
            &[
                ("data/one.txt", "data/one.txt"),
                ("data/a/two.txt", "data/a/two.txt"),
                ("data/Prüf bericht.txt", "data/Prüf bericht.txt"),
            ],
            sha256,
        );
    });
    case(
        "6.2.2: an accent of its own in the name on the disk",
        &|files| {
            files.insert("data/Pru\u{308}fung.txt".into(), b"x".to_vec());
            list(
                files,
                "manifest-sha256.txt",
                &[
                    ("data/one.txt", "data/one.txt"),
                    ("data/a/two.txt", "data/a/two.txt"),
                    ("data/Pru\u{308}fung.txt", "data/Pr\u{fc}fung.txt"),
                ],
                sha256,
            );
        },
    );
    case("2.1.3: lines that end as on old systems", &|files| {
        for name in ["bagit.txt", "manifest-sha256.txt"] {
            edit(files, name, |text| text.replace('\n', "\r"));
        }
    });
    case("2.1.1: manifests of two bytes a letter", &|files| {
        files.insert(
            "bagit.txt".into(),
            b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-16\n".to_vec(),
        );
        let text = String::from_utf8(files["manifest-sha256.txt"].clone()).unwrap();
        let wide = std::iter::once(0xfeff).chain(text.encode_utf16());
        files.insert(
            "manifest-sha256.txt".into(),
            wide.flat_map(u16::to_be_bytes).collect(),
        );
    });
    case("2.2.3: fetched files that are there", &|files| {
        files.insert(
            "fetch.txt".into(),
            b"https://example.org/one.txt 4 data/one.txt\n".to_vec(),
        );
    });
    case("2.1.1: tag files in another encoding", &|files| {
        files.insert(
            "bagit.txt".into(),
            b"BagIt-Version: 1.0\nTag-File-Character-Encoding: ISO-8859-1\n".to_vec(),
        );
        files.insert("bag-info.txt".into(), b"Contact-Name: J\xfcrgen\n".to_vec());
    });
    case("a payload of nothing", &|files| {
        files.retain(|path, _| !path.starts_with("data/"));
        files.insert("data/.keep".into(), Vec::new());
        list(
            files,
            "manifest-sha256.txt",
            &[("data/.keep", "data/.keep")],
            sha256,
        );
    });
    case(
        "a file that systems leave, listed like any other",
        &|files| {
            files.insert("data/.DS_Store".into(), b"x".to_vec());
            list(
                files,
                "manifest-sha256.txt",
                &[
                    ("data/one.txt", "data/one.txt"),
                    ("data/a/two.txt", "data/a/two.txt"),
                    ("data/.DS_Store", "data/.DS_Store"),
                ],
                sha256,
            );
        },
    );
    case("before 1.0: each file in one of the manifests", &|files| {
        files.insert(
            "bagit.txt".into(),
            b"BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n".to_vec(),
        );
        list(
            files,
            "manifest-sha256.txt",
            &[("data/one.txt", "data/one.txt")],
            sha256,
        );
        list(
            files,
            "manifest-sha512.txt",
            &[("data/a/two.txt", "data/a/two.txt")],
            sha512,
        );
    });
    for (what, files) in cases {
        let (status, report) = checked(&files);
        assert_eq!(report["whole"]["holds"], true, "{what}: {report}");
        assert_eq!(status, 0, "{what}: {report}");
        assert_eq!(report["recomputed"]["run"], false, "{what}");
    }
}

#[test]
fn bags_that_are_not_valid_are_refused_with_the_reason() {
    let mut cases: Vec<(&str, &str, Files)> = Vec::new();
    let mut case = |what, says, change: &dyn Fn(&mut Files)| {
        let mut files = small();
        change(&mut files);
        cases.push((what, says, files));
    };
    case(
        "3: a payload file that is not listed",
        "extra: data/more.txt",
        &|files| {
            files.insert("data/more.txt".into(), b"more".to_vec());
        },
    );
    case(
        "3: a listed file that is not there",
        "missing: data/one.txt",
        &|files| {
            files.remove("data/one.txt");
        },
    );
    case("3: other bytes", "changed: data/one.txt", &|files| {
        files.insert("data/one.txt".into(), b"two\n".to_vec());
    });
    case(
        "2.1.3: one of two manifests lists less",
        "extra: data/a/two.txt",
        &|files| {
            list(
                files,
                "manifest-sha512.txt",
                &[("data/one.txt", "data/one.txt")],
                sha512,
            );
        },
    );
    case(
        "2.4: two manifests, of which one does not fit",
        "changed: data/one.txt",
        &|files| {
            list(
                files,
                "manifest-sha512.txt",
                &[
                    ("data/a/two.txt", "data/one.txt"),
                    ("data/a/two.txt", "data/a/two.txt"),
                ],
                sha512,
            );
        },
    );
    case(
        "2.1.1: no declaration",
        "bagit.txt is not there",
        &|files| {
            files.remove("bagit.txt");
        },
    );
    case(
        "2.1.1: an unknown version",
        "no declaration of a version",
        &|files| {
            files.insert(
                "bagit.txt".into(),
                b"BagIt-Version: 7.3\nTag-File-Character-Encoding: UTF-8\n".to_vec(),
            );
        },
    );
    case(
        "2.1.1: a byte order mark",
        "no declaration of a version",
        &|files| {
            files.insert(
                "bagit.txt".into(),
                b"\xef\xbb\xbfBagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n".to_vec(),
            );
        },
    );
    case("2.1.1: a third line", "more than its two lines", &|files| {
        files.insert(
            "bagit.txt".into(),
            b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\nMore: 1\n".to_vec(),
        );
    });
    case("2.1.1: no encoding", "names no encoding", &|files| {
        files.insert("bagit.txt".into(), b"BagIt-Version: 1.0\n".to_vec());
    });
    case("2.1.2: no payload", "data is not there", &|files| {
        files.retain(|path, _| !path.starts_with("data/"));
        files.insert("manifest-sha256.txt".into(), Vec::new());
    });
    case(
        "2.1.3: no manifest",
        "manifest-sha256.txt is not there",
        &|files| {
            files.remove("manifest-sha256.txt");
        },
    );
    case("2.1.3: a file listed twice", "a second time", &|files| {
        edit(files, "manifest-sha256.txt", |text| {
            format!("{text}{}\n", text.lines().next().unwrap())
        });
    });
    case(
        "2.1.3: a line without a path",
        "is not a digest and a path",
        &|files| {
            edit(files, "manifest-sha256.txt", |text| text + "abc\n");
        },
    );
    case(
        "2.4: a digest of another length",
        "does not begin with a digest of 64 digits",
        &|files| {
            edit(files, "manifest-sha256.txt", |text| text[1..].to_owned());
        },
    );
    case(
        "2.4: an unknown hash function",
        "hash function that is not known",
        &|files| {
            let bytes = files["manifest-sha256.txt"].clone();
            files.insert("manifest-whirl9.txt".into(), bytes);
        },
    );
    for path in [
        "data/../../etc/passwd",
        "/etc/passwd",
        "../one.txt",
        "~/one.txt",
        "C:\\one.txt",
        "\\\\host\\one.txt",
        "data\\..\\..\\one.txt",
    ] {
        case(
            "5.2.1: a path that leaves the bag",
            "a path that does not belong there",
            &|files| {
                let line = format!("{}  {path}\n", sha256(b"one\n"));
                edit(files, "manifest-sha256.txt", |text| text + &line);
            },
        );
        case(
            "5.2.1: the same among what is to be fetched",
            "a path that does not belong there",
            &|files| {
                files.insert(
                    "fetch.txt".into(),
                    format!("https://example.org/x - {path}\n").into_bytes(),
                );
            },
        );
    }
    case(
        "2.1.3: a tag file in the payload manifest",
        "a path that does not belong there",
        &|files| {
            edit(files, "manifest-sha256.txt", |text| {
                text + &format!("{}  bagit.txt\n", sha256(b"x"))
            });
        },
    );
    case(
        "2.2.1: a changed tag file",
        "changed: bagit.txt",
        &|files| {
            list(
                files,
                "tagmanifest-sha256.txt",
                &[("bagit.txt", "bagit.txt")],
                of_other_bytes,
            );
        },
    );
    case(
        "2.2.2: another sum of the payload",
        "states a payload of 9.2",
        &|files| {
            files.insert("bag-info.txt".into(), b"Payload-Oxum: 9.2\n".to_vec());
        },
    );
    case(
        "2.2.2: a line that is no field",
        "is no label with a value",
        &|files| {
            files.insert("bag-info.txt".into(), b"just words\n".to_vec());
        },
    );
    case(
        "2.2.3: what is to be fetched and not there",
        "missing: data/far.txt",
        &|files| {
            files.insert(
                "fetch.txt".into(),
                b"https://example.org/far.txt 3 data/far.txt\n".to_vec(),
            );
            edit(files, "manifest-sha256.txt", |text| {
                text + &format!("{}  data/far.txt\n", sha256(b"far"))
            });
        },
    );
    case(
        "2.2.3: what is to be fetched and not listed",
        "that no manifest lists",
        &|files| {
            files.insert(
                "fetch.txt".into(),
                b"https://example.org/far.txt 3 data/far.txt\n".to_vec(),
            );
        },
    );
    assert!(cases.len() > 30);
    for (what, says, files) in cases {
        let (status, report) = checked(&files);
        assert_eq!(
            (status, &report["whole"]["holds"]),
            (1, &Value::Bool(false)),
            "{what}: {report}"
        );
        let said = report["whole"]["differences"].to_string();
        assert!(said.contains(says), "{what}: {said}");
    }
}

/// A digest that fits no file: of other bytes than those listed.
fn of_other_bytes(bytes: &[u8]) -> String {
    sha256(&[bytes, b"x"].concat())
}
