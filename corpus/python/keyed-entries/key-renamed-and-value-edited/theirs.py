PORTS = {
    "dover": "Dover East Pier",
    "wick": "Wick Harbour",
}
