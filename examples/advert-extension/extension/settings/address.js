// Is this an address that the extension may ask the browser for?

const FORM = "Write it like http://127.0.0.1:8080, without a path.";

/**
 * The origin that was meant, or what is wrong with it.
 * @param {string} text
 * @param {string[]} patterns that the manifest lets the extension ask for, such as http://127.0.0.1/*
 * @returns {{origin: string} | {mistake: string}}
 */
export function readAddress(text, patterns) {
  let url;
  try {
    url = new URL(text.trim());
  } catch {
    return { mistake: `That is no address. ${FORM}` };
  }
  const bare = !url.username && !url.password && url.pathname === "/" && !url.search && !url.hash;
  if (!["http:", "https:"].includes(url.protocol) || !bare) {
    return { mistake: `An address has a scheme, a host and perhaps a port, and nothing else. ${FORM}` };
  }
  if (!patterns.some((pattern) => covers(pattern, url))) {
    const hosts = [...new Set(patterns.map((pattern) => new URL(pattern).hostname))].join(" and ");
    return { mistake: `This extension calls ${hosts} only. Its README tells how to let it call another host.` };
  }
  return { origin: url.origin };
}

/** A pattern without a port stands for every port of its host. */
function covers(pattern, url) {
  const wanted = new URL(pattern);
  const samePort = !wanted.port || wanted.port === url.port;
  return wanted.protocol === url.protocol && wanted.hostname === url.hostname && samePort;
}
