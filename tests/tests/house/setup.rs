//! What the scripts install, with an `npm` that is none: a half install is seen and made whole, one that fails stops the script.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A folder of this test, and in it a home whose `npm` writes down what it is asked and answers as told.
struct Home(PathBuf);

impl Home {
    fn new(name: &str) -> Home {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(folder.join(".cargo/bin")).expect("a folder");
        fs::write(folder.join("package-lock.json"), "{}").expect("a file");
        Home(folder)
    }

    fn npm(&self, script: &str) {
        use std::os::unix::fs::PermissionsExt;
        let path = self.0.join(".cargo/bin/npm");
        fs::write(&path, format!("#!/bin/sh\necho \"$1\" >> ../asked\n{script}\n")).expect("a file");
        fs::set_permissions(path, fs::Permissions::from_mode(0o755)).expect("a program");
    }

    /// Installs the packages; gives whether that went well, and what `npm` was asked.
    fn packages(&self) -> (bool, String) {
        let asked = self.0.with_file_name("asked");
        let _ = fs::remove_file(&asked);
        let shell = Command::new("sh")
            .args(["-euc", ". web/tools.sh; node_packages \"$1\"", "sh"])
            .arg(&self.0)
            .env("HOME", &self.0)
            .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(".."))
            .output()
            .expect("a shell");
        (shell.status.success(), fs::read_to_string(asked).unwrap_or_default())
    }
}

#[test]
fn a_half_install_is_made_whole() {
    let home = Home::new("setup/home");
    home.npm("exit 1");
    assert_eq!(home.packages(), (false, "ci\n".into()), "one that fails stops the script");
    home.npm("mkdir -p node_modules; : > node_modules/.package-lock.json");
    assert_eq!(home.packages(), (true, "ci\n".into()));
    assert_eq!(home.packages(), (true, "ls\n".into()), "what is there is not installed again");
    home.npm("[ \"$1\" = ci ]");
    assert_eq!(home.packages(), (true, "ls\nci\n".into()), "a package that is missing is");
}
