use std::fmt;
pub(crate) use self::feed::{Feed, Reading};

pub struct Board;
