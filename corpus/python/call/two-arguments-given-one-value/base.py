publish(station_level, station_offset, station_datum)
