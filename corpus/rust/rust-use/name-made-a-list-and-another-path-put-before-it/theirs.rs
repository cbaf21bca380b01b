use board::{Level, Station, Tide};
use std::fmt;
