//! Writes the descriptors of `grammars/` in a format that takes a fraction of the time to read: the program reads some of
//! them whenever it starts.

use std::path::Path;
use std::process::Command;
use std::{env, fs};

#[path = "src/grammar/descriptor.rs"]
mod descriptor;

use descriptor::Descriptor;

fn main() {
    println!("cargo::rerun-if-changed=grammars");
    println!("cargo::rerun-if-changed=src/grammar/descriptor.rs");
    link_in_unwinding();
    let out = env::var_os("OUT_DIR").expect("cargo sets it");
    for file in fs::read_dir("grammars").expect("the descriptors are there") {
        let path = file.expect("the folder can be read").path();
        if path.extension().is_none_or(|extension| extension != "toml") {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let descriptor: Descriptor = toml::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let write = |extension: &str, bytes: postcard::Result<Vec<u8>>| {
            let name = path.with_extension(extension).file_name().expect("it has one").to_owned();
            let bytes = bytes.expect("a descriptor holds texts, numbers and lists of them");
            fs::write(Path::new(&out).join(name), bytes).expect("cargo's folder can be written to");
        };
        write("names", postcard::to_allocvec(&descriptor.names()));
        write("descriptor", postcard::to_allocvec(&descriptor));
    }
}

/// Has the part of libgcc that a panic needs linked in, where it can be had: one library less to be loaded, which takes
/// longer than some merges.
fn link_in_unwinding() {
    let target = |part: &str| env::var(format!("CARGO_CFG_TARGET_{part}")).unwrap_or_default();
    if env::var("HOST") != env::var("TARGET") || target("OS") != "linux" || target("ENV") != "gnu" {
        return;
    }
    // The compiler names a library of its own by where it is, and one that it does not have as it was asked.
    let asked = Command::new("cc").arg("-print-file-name=libgcc_eh.a").output();
    if asked.is_ok_and(|told| Path::new(String::from_utf8_lossy(&told.stdout).trim()).is_absolute()) {
        println!("cargo::rustc-link-lib=static:-bundle=gcc_eh");
    }
}
