use std::rc::Rc;
use tide::Gauge;

pub struct Board;
