import { decode } from 'jpeg-js';
import { jpegSizeOf, withoutCameraData } from '../../shared/axle/mark/jpegSegments.ts';
import type { Logo } from '../../shared/job/certifying/certificateData.ts';
import { largestLogo } from '../../shared/contract/settings.ts';

/**
 * A shop's logo as certificates bear it, from what was set: a whole JPEG of a size to stand at the head of a page, without
 * anything a camera wrote. Undefined for everything else, whatever a screen sent: a page that could not be drawn is worse than
 * one without a logo.
 */
export function logoOf(base64: string): Logo | undefined {
  if (base64 === '') return undefined;
  const jpeg = Buffer.from(withoutCameraData(Buffer.from(base64, 'base64')));
  const size = jpegSizeOf(jpeg);
  if (size === undefined || jpeg.length > largestLogo.bytes) return undefined;
  if (size.width > largestLogo.width || size.height > largestLogo.height) return undefined;
  return isWhole(jpeg) ? { jpeg_base64: jpeg.toString('base64'), ...size } : undefined;
}

function isWhole(jpeg: Buffer): boolean {
  try {
    decode(jpeg, { useTArray: true, maxMemoryUsageInMB: 64, tolerantDecoding: false });
    return true;
  } catch {
    return false;
  }
}
