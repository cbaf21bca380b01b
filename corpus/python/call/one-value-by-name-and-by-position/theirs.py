text = reading.decode(gauge.encoding, errors="replace")
