def test_gauge(client):
    @client.route("/alarm")
    def alarm():
        sound()

    answer = client.get("/tide")
    assert answer.status == 200
    assert "high" in answer.text
    answer = client.get("/alarm")
    assert answer.status == 200

    client.debug = True
    with raises(KeyError) as error:
        client.get("/tide")
    assert "low" in str(error)
    answer = client.get("/alarm")
    assert answer.status == 200

    client.debug = False
    client.config["STRICT"] = True
    with raises(KeyError):
        client.get("/tide")
