use std::fs;
use std::net::TcpStream;

fn main() {}
