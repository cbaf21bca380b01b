check(TideError,
      Gauge(), "high")
