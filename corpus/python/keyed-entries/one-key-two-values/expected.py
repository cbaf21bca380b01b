PORTS = {
<<<<<<< ours
    "dover": "Dover Admiralty Pier",
=======
    "dover": "Dover East Pier",
>>>>>>> theirs
    "wick": "Wick Outer Harbour",
}
