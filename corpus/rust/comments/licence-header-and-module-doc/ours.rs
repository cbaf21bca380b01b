// Part of tideboard, under the licence in LICENSE.

//! Tide feeds of the dashboard.
use std::io;
