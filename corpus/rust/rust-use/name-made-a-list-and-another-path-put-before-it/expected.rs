use crate::board::{Level, Station, Tide};
use std::fmt;
