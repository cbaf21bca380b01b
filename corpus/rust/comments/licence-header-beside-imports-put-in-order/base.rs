use tide::Gauge;
use std::rc::Rc;

pub struct Board;
