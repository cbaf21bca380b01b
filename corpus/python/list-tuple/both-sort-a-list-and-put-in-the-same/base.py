PANELS = ["tideboard.panels.tides",
          "tideboard.panels.wind", "tideboard.panels.waves",
          "tideboard.panels.alarms",
          "tideboard.panels.gauges",
          "tideboard.panels.locks",
          "tideboard.panels.bridges"]
