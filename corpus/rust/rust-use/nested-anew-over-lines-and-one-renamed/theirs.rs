use std::fmt;

use tide::gauge::Kind;
use tide::gauge::Meter;
use tide::port::Port;

pub struct Board;
