use crate::chart::{Chart, ChartError, ChartResult};
use crate::tide::Gauge;
