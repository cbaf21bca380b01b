PORTS = {
    "dover": "Dover East Pier",
    "wick": "Wick Outer Harbour",
}
