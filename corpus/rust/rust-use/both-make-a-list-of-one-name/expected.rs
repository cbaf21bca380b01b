use crate::chart::{Chart, ChartError, ChartResult, ChartTitle};
use crate::tide::Gauge;
