PORTS = {
    "dover": "Dover Pier",
    "wick": "Wick Harbour",
    "leith": "Leith Dock",
}
