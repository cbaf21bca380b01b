def unit(config):
    return config.get("unit")
