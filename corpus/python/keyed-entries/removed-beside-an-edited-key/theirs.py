PORTS = {
    "dover": "Dover Pier",
    "wick": "Wick Outer Harbour",
}
