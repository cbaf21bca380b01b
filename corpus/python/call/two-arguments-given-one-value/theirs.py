publish(station_level, reading_level, station_datum)
