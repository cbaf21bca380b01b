PORTS = {
    "gb-dover": "Dover East Pier",
    "wick": "Wick Harbour",
}
