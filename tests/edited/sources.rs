//! Real sources on the machine, read at run time.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

use super::{Lang, trees};

/// Whether every file is to be tried instead of a sample.
pub fn exhaustive() -> bool {
    env::var_os("PLEACH_EXHAUSTIVE").is_some_and(|v| v == "1")
}

/// Every source of a language on the machine, sorted by path: CPython's standard library; the vendored
/// registry sources of our own dependency tree.
pub fn all(lang: Lang) -> Vec<PathBuf> {
    let mut found = match lang {
        Lang::Python => files(&standard_library(), &|p| p.extension().is_some_and(|e| e == "py")),
        Lang::Rust => registry().iter().flat_map(|p| files(p, &|p| p.extension().is_some_and(|e| e == "rs"))).collect(),
        Lang::Toml => {
            registry().iter().flat_map(|p| files(p, &|p| p.file_name().is_some_and(|n| n == "Cargo.toml"))).collect()
        }
    };
    assert!(found.len() > 20, "only {} sources of {lang:?} on this machine", found.len());
    found.sort();
    found
}

/// `n` sources of a length between `least` and `most` bytes, evenly over [`all`].
pub fn sample(lang: Lang, n: usize, least: u64, most: u64) -> Vec<(String, String)> {
    let fitting: Vec<PathBuf> =
        all(lang).into_iter().filter(|p| fs::metadata(p).is_ok_and(|m| (least..=most).contains(&m.len()))).collect();
    let mut taken: Vec<(String, String)> = Vec::new();
    for k in 0..n.min(fitting.len()) {
        let path = &fitting[k * fitting.len() / n.min(fitting.len())];
        // A file of another encoding is no text to edit; contract K7 has such files.
        if let Ok(text) = fs::read_to_string(path) {
            taken.push((path.display().to_string(), text));
        }
    }
    taken
}

/// The bases of the corpus in one language, as far as the grammar itself reads them.
pub fn corpus(lang: Lang) -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("corpus");
    let name = format!("base.{}", lang.extension());
    let mut found: Vec<(String, String)> = files(&root, &|p| p.file_name().is_some_and(|n| n == name.as_str()))
        .into_iter()
        .filter_map(|p| Some((p.display().to_string(), fs::read_to_string(&p).ok()?)))
        .filter(|(_, text)| !text.is_empty() && trees::parses(lang, text.as_bytes()))
        .collect();
    found.sort();
    found
}

fn standard_library() -> PathBuf {
    let python = Command::new("python3")
        .args(["-c", "import sysconfig; print(sysconfig.get_paths()['stdlib'])"])
        .output()
        .expect("python3 is needed: its standard library is what these tests merge");
    let path = String::from_utf8(python.stdout).expect("a path");
    PathBuf::from(path.trim())
}

/// The source folders of the crates in our own dependency tree.
fn registry() -> Vec<PathBuf> {
    let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    // The crates of other platforms need not be on this machine.
    let version = Command::new("rustc").arg("-vV").output().expect("rustc runs");
    let version = String::from_utf8(version.stdout).expect("text");
    let host = version.lines().find_map(|l| l.strip_prefix("host: ")).expect("a host platform");
    let metadata = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--offline", "--locked", "--filter-platform", host])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo runs");
    assert!(metadata.status.success(), "cargo metadata: {}", String::from_utf8_lossy(&metadata.stderr));
    let metadata: serde_json::Value = serde_json::from_slice(&metadata.stdout).expect("JSON");
    let packages = metadata["packages"].as_array().expect("packages");
    packages
        .iter()
        .filter(|p| p["source"].is_string())
        .filter_map(|p| Path::new(p["manifest_path"].as_str()?).parent().map(Path::to_owned))
        .collect()
}

fn files(root: &Path, wanted: &dyn Fn(&Path) -> bool) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![root.to_owned()];
    while let Some(folder) = folders.pop() {
        let Ok(entries) = fs::read_dir(&folder) else { continue };
        for entry in entries.flatten() {
            let Ok(kind) = entry.file_type() else { continue };
            let path = entry.path();
            if kind.is_dir() {
                // Packages that somebody installed are not the standard library.
                if entry.file_name() != "site-packages" {
                    folders.push(path);
                }
            } else if kind.is_file() && wanted(&path) {
                found.push(path);
            }
        }
    }
    found
}
