use std::fs;
use std::process::Command;

fn main() {}
