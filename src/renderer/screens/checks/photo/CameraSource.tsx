import { useEffect, useRef, useState } from 'react';
import { Button } from '../../../parts/Button.tsx';

interface CameraSourceProps {
  readonly onTaken: (file: Blob) => void;
  readonly onClose: () => void;
  /** Hands out what takes the photo, once the camera shows a picture: the green button and the pedal do it. */
  readonly onReady: (take: () => void) => void;
}

/** A camera on the bench: asked for only here, seen only here, and let go of when the photo is taken. */
export function CameraSource({ onTaken, onClose, onReady }: CameraSourceProps) {
  const video = useRef<HTMLVideoElement>(null);
  const [refused, setRefused] = useState<string>();
  const take = async (): Promise<void> => {
    const picture = video.current;
    if (picture === null || picture.videoWidth === 0) return;
    const canvas = new OffscreenCanvas(picture.videoWidth, picture.videoHeight);
    canvas.getContext('2d')?.drawImage(picture, 0, 0);
    onTaken(await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.95 }));
  };
  useEffect(() => {
    let stream: MediaStream | undefined;
    let there = true;
    openCamera().then(
      (opened) => {
        stream = opened;
        if (!there) return letGo(opened);
        if (video.current !== null) video.current.srcObject = opened;
        onReady(() => void take());
        return undefined;
      },
      (error: unknown) => there && setRefused(refusal(error)),
    );
    return () => {
      there = false;
      if (stream !== undefined) letGo(stream);
    };
    // The camera is opened once, whatever the screen around it does.
    // oxlint-disable-next-line react/exhaustive-deps
  }, []);
  return (
    <div className="camera">
      {refused === undefined ? (
        <video ref={video} className="camera__picture" autoPlay muted playsInline aria-label="What the camera sees" />
      ) : (
        <p role="alert">{refused}</p>
      )}
      <div className="camera__doing">
        <Button onPress={onClose}>Put the camera away</Button>
      </div>
    </div>
  );
}

/** Sees and does not hear; as sharp as the camera can, up to what a reading can use. */
const openCamera = async (): Promise<MediaStream> => {
  // A page that was not opened from this machine has no camera to ask for.
  if (!('mediaDevices' in navigator)) throw new DOMException('', 'NotSupportedError');
  return navigator.mediaDevices.getUserMedia({
    audio: false,
    video: { width: { ideal: 2560 }, height: { ideal: 1440 }, facingMode: 'environment' },
  });
};

const letGo = (stream: MediaStream): void => {
  for (const track of stream.getTracks()) track.stop();
};

function refusal(error: unknown): string {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError')
    return 'The camera was not allowed. Allow it for this page, or send the photo from a phone.';
  if (name === 'NotFoundError') return 'No camera is connected to this computer. Connect one, or choose a file.';
  if (name === 'NotReadableError') return 'Another program holds the camera. Close that one and try again.';
  return 'The camera cannot be used here. Choose a file, or send the photo from a phone.';
}
