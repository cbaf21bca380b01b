#![allow(unused)]

fn a() {}
