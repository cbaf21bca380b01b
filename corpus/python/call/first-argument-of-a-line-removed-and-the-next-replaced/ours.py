check(TideError,
      lookup, Gauge(), "high")
