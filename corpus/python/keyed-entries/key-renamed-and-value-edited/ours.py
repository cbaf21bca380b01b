PORTS = {
    "gb-dover": "Dover Pier",
    "wick": "Wick Harbour",
}
