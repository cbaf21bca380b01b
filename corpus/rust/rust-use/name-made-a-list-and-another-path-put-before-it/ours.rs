use crate::board::Tide;
use std::fmt;
