use std::fs;
use std::net::TcpStream;
use std::process::Command;

fn main() {}
