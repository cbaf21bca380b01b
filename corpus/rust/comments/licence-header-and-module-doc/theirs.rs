//! Feeds and gauges of the dashboard.
use std::io;
