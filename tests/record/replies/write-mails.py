"""Writes mails with the email package of Python: descriptions as JSON on standard input, mails in base64 as JSON on standard output."""
import base64
import json
import sys
from email import policy
from email.message import EmailMessage


def mail(one):
    message = EmailMessage(policy=policy.SMTP)
    for key, value in one["fields"]:
        message[key] = value
    text = one.get("text")
    if text is not None:
        message.set_content(text["body"], charset=text["charset"], cte=text["encoding"])
        for key, value in text.get("parameters", []):
            message.set_param(key, value)
    html = one.get("html")
    if html is not None:
        set_part = message.set_content if text is None else message.add_alternative
        set_part(html["body"], subtype="html", charset=html["charset"], cte=html["encoding"])
    if message.is_multipart():
        message.set_boundary("part-" + one["name"])
    return message.as_bytes()


json.dump([base64.b64encode(mail(one)).decode("ascii") for one in json.load(sys.stdin)], sys.stdout)
