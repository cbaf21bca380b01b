<<<<<<< ours
text = reading.decode(gauge.encoding, "replace")
=======
text = reading.decode(gauge.encoding, errors="replace")
>>>>>>> theirs
