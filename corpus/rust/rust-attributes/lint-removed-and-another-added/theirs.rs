#![allow(dead_code, unused, clippy::all)]

fn a() {}
