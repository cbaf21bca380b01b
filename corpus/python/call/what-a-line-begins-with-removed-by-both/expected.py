check(TideError,
      "high")
