check(TideError,
      lookup, "high")
