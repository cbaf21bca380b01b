#![allow(dead_code, unused)]

fn a() {}
