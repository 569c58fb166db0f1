import { Field } from '../../../parts/Field.tsx';
import { useBenchSeen } from '../../../stores/bench.ts';
import { ShopLogo } from './ShopLogo.tsx';
import { changeSession, useSession } from '../../../stores/session.ts';

/** What every certificate of this bench bears: the shop, the bench's name, and the fingerprint of the key that signs. */
export function OnCertificates() {
  const { shopName, shopAddress, benchName } = useSession();
  const bench = useBenchSeen((seen) => seen.about?.bench);
  return (
    <section className="sheet__part">
      <h3>On certificates</h3>
      <Field label="Shop" value={shopName} onChange={(name) => changeSession({ shopName: name })} />
      <Field
        label="Address"
        lines={2}
        value={shopAddress}
        onChange={(address) => changeSession({ shopAddress: address })}
      />
      <ShopLogo />
      <Field
        label="This bench is called"
        value={benchName}
        onChange={(name) => changeSession({ benchName: name })}
        hint={bench === undefined ? undefined : `Left empty: ${bench.name}.`}
      />
      {bench === undefined ? undefined : (
        <p className="quiet">
          Its key: <span className="digits">{bench.fingerprint}</span>. The same stands on every page it signs.
        </p>
      )}
    </section>
  );
}
