#![allow(unused, clippy::all)]

fn a() {}
