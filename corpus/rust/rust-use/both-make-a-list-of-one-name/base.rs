use crate::chart::Chart;
use crate::tide::Gauge;
