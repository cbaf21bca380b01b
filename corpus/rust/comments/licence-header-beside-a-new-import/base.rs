use tide::Gauge;

pub struct Board;
