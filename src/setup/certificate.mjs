/** Certificates by which Excel trusts a server on this machine. */

const byHand = 'npx office-addin-dev-certs';

/**
 * Finds a certificate that this machine trusts, or makes one and asks to trust it. `made` is true where it
 * was not there before. Without `options`, `why` says why there is none.
 */
export async function trustedCertificate() {
  const { getHttpsServerOptions, verifyCertificates } = await import('office-addin-dev-certs');
  let made = false;
  try {
    made = !verifyCertificates();
    return { made, options: await getHttpsServerOptions() };
  } catch (thrown) {
    return {
      made,
      why: `The certificate could not be made trusted (${thrown.message.trim()}): run "${byHand} install", allow it, and start again.`,
    };
  }
}

/** Takes the trust back and removes the files; returns why where that could not be done. */
export async function removeCertificate() {
  const { deleteCertificateFiles, uninstallCaCertificate } = await import('office-addin-dev-certs');
  try {
    await uninstallCaCertificate(false, false);
    deleteCertificateFiles();
    return undefined;
  } catch (thrown) {
    return `The certificate is still trusted (${thrown.message.trim()}): run "${byHand} uninstall".`;
  }
}
