logger = setup_logging("tideboard", level="INFO")
logger.info("started")
