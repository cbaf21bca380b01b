use crate::chart::{Chart, ChartTitle};
use crate::tide::Gauge;
