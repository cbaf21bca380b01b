text = reading.decode(gauge.encoding, "replace")
