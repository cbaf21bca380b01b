publish(reading_level, station_offset, station_datum)
