// Part of tideboard, under the licence in LICENSE.

//! Feeds and gauges of the dashboard.
use std::io;
