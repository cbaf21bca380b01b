use std::fmt;

const LIMIT: u32 = 1;
