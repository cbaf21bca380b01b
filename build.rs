//! Writes the descriptors of `grammars/` as JSON, which takes a fraction of the time to read: the program reads
//! some of them whenever it starts.

use std::path::Path;
use std::{env, fs};

fn main() {
    println!("cargo::rerun-if-changed=grammars");
    let out = env::var_os("OUT_DIR").expect("cargo sets it");
    for file in fs::read_dir("grammars").expect("the descriptors are there") {
        let path = file.expect("the folder can be read").path();
        if path.extension().is_none_or(|extension| extension != "toml") {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let descriptor: toml::Table = text.parse().unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let json = serde_json::to_string(&descriptor).expect("a descriptor holds no dates and no other numbers");
        let name = path.with_extension("json").file_name().expect("it has one").to_owned();
        fs::write(Path::new(&out).join(name), json).expect("cargo's folder can be written to");
    }
}
