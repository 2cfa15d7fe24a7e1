/** What has to be known before somebody does homework alone, in plain words. */
export const AloneCautions = () => (
  <section className="card cautions" aria-labelledby="alone-title">
    <h2 id="alone-title">Before you begin</h2>
    <ul>
      <li>
        Pain, an injury, surgery, pregnancy, or a heart or blood-pressure history: a licensed
        professional decides first. Sayso is not medical advice.
      </li>
      <li>Never more load than your coach handed over, and nothing new that nobody watched.</li>
      <li>
        Stop the moment anything hurts, and say so. “Stop” works at any moment, spoken, tapped or
        with Escape.
      </li>
      <li>
        Chest pain, faint or dizzy, breathless, numb or tingling, a joint that gave way: it ends.
        Get help as your local rules say.
      </li>
      <li>After a shoulder dislocation or shoulder surgery: no hanging.</li>
      <li>You may end it at any time, for no reason at all.</li>
    </ul>
  </section>
);
