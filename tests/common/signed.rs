//! The example, compiled and signed by three persons with ordinary keys.

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use super::code;

/// A compiled dossier with keys for its signers.
pub struct Stage {
    pub kept: tempfile::TempDir,
    pub out: PathBuf,
}

pub const SIGNERS: [(&str, &str, &str); 3] = [
    ("prepared", "P-06", "ed25519"),
    ("reviewed", "P-07", "ecdsa"),
    ("approved", "P-01", "rsa"),
];

impl Stage {
    pub fn new(records: &str, more: &[&str]) -> Stage {
        Stage::keys().compiled(records, more)
    }

    /// Keys, and no dossier yet.
    pub fn keys() -> Stage {
        let kept = tempfile::tempdir().unwrap();
        let out = kept.path().join("out");
        let stage = Stage { kept, out };
        for (_, person, kind) in SIGNERS {
            stage.key(person, kind);
        }
        stage
    }

    pub fn compiled(self, records: &str, more: &[&str]) -> Stage {
        let mut args = vec!["compile", records, "--into", self.out.to_str().unwrap()];
        args.extend(more);
        code(&args);
        self
    }

    /// Signs a statement as it lies there, by OpenSSH alone.
    pub fn by_hand(&self, name: &str, key: &str) {
        self.sign_file(&self.file(name), key);
    }

    /// The same of any file.
    pub fn sign_file(&self, file: &Path, key: &str) {
        let signed = Command::new("ssh-keygen")
            .args(["-Y", "sign", "-q", "-n", "dossier-approval", "-f"])
            .arg(self.kept.path().join(key))
            .arg(file)
            .status();
        assert!(signed.unwrap().success());
    }

    pub fn key(&self, person: &str, kind: &str) {
        let status = Command::new("ssh-keygen")
            .args(["-q", "-N", "", "-t", kind, "-C", "", "-f"])
            .arg(self.kept.path().join(person))
            .status()
            .unwrap();
        assert!(status.success());
    }

    pub fn approve(&self, meaning: &str, person: &str, key: &str, more: &[&str]) -> (i32, String) {
        let key = self.kept.path().join(key);
        let mut args = vec![
            "approve",
            self.out.to_str().unwrap(),
            "--as",
            meaning,
            "--person",
            person,
            "--key",
            key.to_str().unwrap(),
        ];
        args.extend(more);
        code(&args)
    }

    pub fn signed() -> Stage {
        Stage::new("example-dossier/released", &[]).by_all()
    }

    /// Signed by all three, an hour apart.
    pub fn by_all(self) -> Stage {
        for (i, (meaning, person, _)) in SIGNERS.iter().enumerate() {
            let at = format!("2026-10-06T1{i}:00:00+02:00");
            let (status, text) = self.approve(meaning, person, person, &["--at", &at]);
            assert_eq!(status, 0, "{text}");
        }
        self
    }

    /// The signers that a reader knows.
    pub fn allowed(&self) -> PathBuf {
        let path = self.kept.path().join("allowed");
        let lines = SIGNERS.map(|(_, person, _)| {
            let key = fs::read_to_string(self.kept.path().join(format!("{person}.pub"))).unwrap();
            format!("{person} {}\n", key.trim())
        });
        fs::write(&path, lines.concat()).unwrap();
        path
    }

    pub fn verify(&self, more: &[&str]) -> (i32, String) {
        let mut args = vec!["verify", self.out.to_str().unwrap()];
        args.extend(more);
        code(&args)
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.out.join("signatures").join(name)
    }
}
