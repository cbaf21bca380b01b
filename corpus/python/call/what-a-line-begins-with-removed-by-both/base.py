check(TideError,
      lookup, Station(), "high")
