use super::*;

#[test]
fn a_stream_falls_into_its_documents() {
    let text = b"# head\nkind: a\n---\nkind: b\ntext: |\n  --- not a marker\n--- # third\nkind: c";
    let all: Vec<&[u8]> = parts(text).into_iter().map(|part| &text[part]).collect();
    assert_eq!(all.concat(), text);
    assert_eq!(all.len(), 3);
    assert_eq!(all[0], b"# head\nkind: a\n");
    assert!(all[1].starts_with(b"---\nkind: b") && all[2].starts_with(b"--- # third"));
    assert_eq!(parts(b"---\nkind: a\n").len(), 1);
    assert_eq!(parts(b"----\nkind: a\n").len(), 1);
    assert_eq!(parts(b"").len(), 1);
}

#[test]
fn ids_are_found_whole() {
    let mut names = Names::default();
    for (name, of) in [("L-1", 1), ("M 2", 2), ("a/b.csv", 3)] {
        names.add(name, of);
    }
    let found = |text: &str| -> Vec<i32> { names.within(text.as_bytes()).copied().collect() };
    assert_eq!(found("lot L-1."), [1]);
    assert_eq!(found("[L-1,L-11]"), [1]);
    assert_eq!(found("L-1/L-2"), [1]);
    assert!(found("L-11 xL-1").is_empty());
    assert_eq!(found("see M 2; file: a/b.csv"), [3, 2]);
}

#[test]
fn odd_names_are_found_wherever_they_stand_also_in_one_another() {
    let odd = [
        "run 1.csv",
        "run 1",
        "un 1.c",
        "1 run",
        "Weingut Süd & Söhne",
        " ",
    ];
    let mut names = Names::default();
    odd.iter()
        .enumerate()
        .for_each(|(n, name)| names.add(name, n));
    for text in [
        "file: run 1.csv",
        "run 1run 1.csv",
        "xrun 1.csvx",
        "Weingut Süd & Söhne, run",
        "nothing",
        "",
    ] {
        let mut found: Vec<usize> = names.within(text.as_bytes()).copied().collect();
        found.sort_unstable();
        // By definition: a name stands in a text where the text contains it.
        let expected: Vec<usize> = (0..odd.len()).filter(|n| text.contains(odd[*n])).collect();
        assert_eq!(found, expected, "{text}");
    }
    // A name that is added later is found too.
    names.add("no thing", 9);
    let found: Vec<usize> = names.within(b"no thing").copied().collect();
    assert!(found.contains(&9) && found.contains(&5));
}

#[test]
fn a_seal_hides_and_an_entry_shows_its_kind() {
    let salt = |n| Digest([n; 32]);
    assert_ne!(sealed(salt(1), "a", b"b"), sealed(salt(2), "a", b"b"));
    assert_ne!(sealed(salt(1), "a", b"b"), sealed(salt(1), "ab", b""));
    let head = |entries: &[Vec<u8>]| group_head("lot", "L", salt(9), entries.to_vec());
    let (one, two) = (entry("x", false, salt(1)), entry("y", true, salt(2)));
    assert_eq!(
        head(&[one.clone(), two.clone()]),
        head(&[two.clone(), one.clone()])
    );
    assert_ne!(head(&[one.clone(), two]), head(&[one]));
}
