use std::fs;
use std::process::Command;
use std::net::TcpStream;

fn main() {}
