PORTS = {
    "dover": "Dover Pier",
    "wick": "Wick Harbour",
}
