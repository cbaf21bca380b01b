def run(port):
    print(port)


if __name__ == "__main__":
    run("dover")
