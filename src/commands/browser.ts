import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, renameSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { brotliDecompressSync } from 'node:zlib'
import chromium from '@sparticuz/chromium'
import { type Browser, chromium as driver } from 'playwright-core'

/**
 * A headless browser for Linux that comes out of the package registry, with the few libraries and the font that
 * a bare machine lacks. The flags that its package suggests are deliberately absent: they put everything into
 * one process and switch off the rules between sites that the page relies on.
 */
export async function openBrowser(): Promise<Browser> {
  return driver.launch({
    executablePath: await chromium.executablePath(),
    args: ['--no-sandbox', '--no-zygote', '--disable-gpu', '--disable-background-networking'],
    env: {
      HOME: tmpdir(),
      LD_LIBRARY_PATH: join(unpackedLibraries(), 'lib'),
      FONTCONFIG_PATH: join(tmpdir(), 'fonts'),
    },
  })
}

/** The package unpacks its libraries only where it believes to be in the cloud that it was made for. */
function unpackedLibraries(): string {
  const unpacked = join(tmpdir(), 'sanderling-browser-libraries')
  if (existsSync(unpacked)) return unpacked
  const packed = join(
    createRequire(import.meta.url).resolve('@sparticuz/chromium'),
    '../../../bin/al2023.tar.br',
  )
  const folder = mkdtempSync(join(tmpdir(), 'sanderling-unpacking-'))
  execFileSync('tar', ['-x', '-C', folder], { input: brotliDecompressSync(readFileSync(packed)) })
  renameSync(folder, unpacked)
  return unpacked
}
