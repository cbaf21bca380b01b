text = reading.decode(gauge.encoding)
