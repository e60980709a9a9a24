import { generateKeyPairSync, sign } from "node:crypto";

/** A certificate for localhost that vouches for itself, made on the spot: no private key lies in the repository. DER by X.690, fields by RFC 5280. */
export function selfSigned(): { cert: string; key: string } {
  const { privateKey, publicKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
  const ecdsaWithSha256 = sequence(der(0x06, Buffer.from("2a8648ce3d040302", "hex")));
  const name = sequence(der(0x31, sequence(der(0x06, Buffer.from("550403", "hex")), der(0x0c, Buffer.from("localhost")))));
  const time = (year: number) => der(0x18, Buffer.from(`${year}0101000000Z`));
  const localhost = der(0x82, Buffer.from("localhost"));
  const alternativeNames = sequence(der(0x06, Buffer.from("551d11", "hex")), der(0x04, sequence(localhost)));
  const body = sequence(
    der(0xa0, der(0x02, Buffer.from([2]))),
    der(0x02, Buffer.from([1])),
    ecdsaWithSha256,
    name,
    sequence(time(2020), time(2120)),
    name,
    publicKey.export({ type: "spki", format: "der" }),
    der(0xa3, sequence(alternativeNames)),
  );
  const certificate = sequence(body, ecdsaWithSha256, der(0x03, Buffer.concat([Buffer.from([0]), sign("sha256", body, privateKey)])));
  const lines = certificate.toString("base64").match(/.{1,64}/g) ?? [];
  return {
    cert: `-----BEGIN CERTIFICATE-----\n${lines.join("\n")}\n-----END CERTIFICATE-----\n`,
    key: privateKey.export({ type: "pkcs8", format: "pem" }).toString(),
  };
}

function der(tag: number, content: Buffer): Buffer {
  const { length } = content;
  const size = length < 128 ? [length] : length < 256 ? [0x81, length] : [0x82, length >> 8, length & 255];
  return Buffer.concat([Buffer.from([tag, ...size]), content]);
}

function sequence(...parts: Buffer[]): Buffer {
  return der(0x30, Buffer.concat(parts));
}
