import { useRef, useState } from 'react';
import { largestLogo } from '../../../../shared/contract/settings.ts';
import { refusedByHead } from '../../../../shared/axle/mark/pictureHead.ts';
import { Button } from '../../../parts/Button.tsx';
import { base64Of } from '../../../photos/bytes.ts';
import { decoded } from '../../../photos/shrink.ts';
import { changeSession, useSession } from '../../../stores/session.ts';

/** The shop's logo at the head of certificates; it stands beside the shop's name, which must be there. */
export function ShopLogo() {
  const { shopLogo, shopName } = useSession();
  const chooser = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<string>();
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const logo = await shrunkLogo(file);
    setSaid(logo === undefined ? `${file.name} is no picture that can be shown here. Take a PNG or JPEG.` : undefined);
    if (logo !== undefined) changeSession({ shopLogo: logo });
  };
  return (
    <div className="sheet__logo">
      {shopLogo === '' ? undefined : <img src={`data:image/jpeg;base64,${shopLogo}`} alt="Logo of the shop" />}
      <input
        ref={chooser}
        type="file"
        accept="image/png,image/jpeg"
        aria-label="File of the logo"
        hidden
        onChange={(event) => {
          void take(event.currentTarget.files?.[0]);
          event.currentTarget.value = '';
        }}
      />
      <Button onPress={() => chooser.current?.click()}>{shopLogo === '' ? 'Choose a logo' : 'Another logo'}</Button>
      {shopLogo === '' ? undefined : (
        <Button look="quiet" onPress={() => changeSession({ shopLogo: '' })}>
          No logo
        </Button>
      )}
      {shopLogo !== '' && shopName.trim() === '' ? (
        <p className="quiet">It is shown with the shop’s name.</p>
      ) : undefined}
      {said === undefined ? undefined : <p role="alert">{said}</p>}
    </div>
  );
}

/** On white, because paper is; in the kind that every reader of a certificate can show. */
async function shrunkLogo(file: File): Promise<string | undefined> {
  if (refusedByHead(new Uint8Array(await file.arrayBuffer())) !== undefined) return undefined;
  const whole = await decoded(file);
  if (whole === undefined) return undefined;
  // Twice what the page shows is sharp at any zoom; the least that is taken is larger.
  const scale = Math.min(1, 600 / whole.width, 300 / whole.height);
  const [width, height] = [whole.width, whole.height].map((side) => Math.max(1, Math.round(side * scale)));
  const canvas = new OffscreenCanvas(width ?? 1, height ?? 1);
  const pen = canvas.getContext('2d');
  if (pen === null) return undefined;
  pen.fillStyle = 'white';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(whole, 0, 0, canvas.width, canvas.height);
  const jpeg = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.92 });
  return jpeg.size > largestLogo.bytes ? undefined : base64Of(jpeg);
}
