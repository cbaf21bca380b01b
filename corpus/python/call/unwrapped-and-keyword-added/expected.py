logger = setup_logging("tideboard", level="INFO", rotate=True)
logger.info("started")
