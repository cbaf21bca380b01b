PORTS = {
<<<<<<< ours
=======
    "dover": "Dover East Pier",
>>>>>>> theirs
    "wick": "Wick Outer Harbour",
}
