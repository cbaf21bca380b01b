def unit(config):
    return config.get("display.unit") or "m"
