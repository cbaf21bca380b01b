check(TideError,
      Station(), "high")
