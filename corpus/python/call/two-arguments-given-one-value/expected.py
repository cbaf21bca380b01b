<<<<<<< ours
publish(reading_level, station_offset, station_datum)
=======
publish(station_level, reading_level, station_datum)
>>>>>>> theirs
