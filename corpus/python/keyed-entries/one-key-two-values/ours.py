PORTS = {
    "dover": "Dover Admiralty Pier",
    "wick": "Wick Harbour",
}
