use std::fmt;

use tide::gauge::Gauge;
use tide::gauge::Kind;
use tide::port::Port;

pub struct Board;
