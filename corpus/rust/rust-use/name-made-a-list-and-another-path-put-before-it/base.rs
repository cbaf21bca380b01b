use board::Tide;
use std::fmt;
