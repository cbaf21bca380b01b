// Copyright of the tideboard authors.
// Licensed under the terms in LICENSE.

use tide::Gauge;

pub struct Board;
